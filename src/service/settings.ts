// What can be set from outside: one table of names, defaults and meanings, read from environment and flags.
// It must not read the process itself (main hands both in), and it refuses what would be unsafe.

import { z } from 'zod';

/** One row per setting: the documentation, the flags and the environment are all read from here. */
export const settingRows = [
  {
    key: 'host',
    env: 'LASTGOOD_HOST',
    flag: '--host',
    standard: '127.0.0.1',
    meaning: 'Address to listen on; anything but loopback needs a token',
  },
  { key: 'port', env: 'LASTGOOD_PORT', flag: '--port', standard: '4700', meaning: 'Port; 0 takes any free one' },
  {
    key: 'file',
    env: 'LASTGOOD_FILE',
    flag: '--file',
    standard: '.lastgood/lastgood.sqlite',
    meaning: 'SQLite file; its folder is made when absent',
  },
  {
    key: 'token',
    env: 'LASTGOOD_TOKEN',
    flag: null,
    standard: '',
    meaning: 'Bearer token of at least 16 characters that every request must carry',
  },
  {
    key: 'allowedHosts',
    env: 'LASTGOOD_ALLOWED_HOSTS',
    flag: '--allowed-hosts',
    standard: '',
    meaning: 'Host names, with commas, that the server answers for besides IP addresses and localhost',
  },
  {
    key: 'bodyLimitMb',
    env: 'LASTGOOD_BODY_LIMIT_MB',
    flag: '--body-limit-mb',
    standard: '16',
    meaning: 'Largest body of a request, in megabytes',
  },
  {
    key: 'restoreLimitMb',
    env: 'LASTGOOD_RESTORE_LIMIT_MB',
    flag: '--restore-limit-mb',
    standard: '256',
    meaning: 'Largest backup file that can be restored, in megabytes',
  },
  {
    key: 'deadlineMs',
    env: 'LASTGOOD_DEADLINE_MS',
    flag: '--deadline-ms',
    standard: '10000',
    meaning: 'Longest time that one answer may take, in milliseconds; findings and plans may take six times as long',
  },
  {
    key: 'cachedModels',
    env: 'LASTGOOD_CACHED_MODELS',
    flag: '--cached-models',
    standard: '8',
    meaning: 'Harness revisions whose circuit is kept in memory between questions',
  },
  {
    key: 'demo',
    env: 'LASTGOOD_DEMO',
    flag: '--demo',
    standard: 'yes',
    meaning: 'Whether an empty store is filled with the demonstration harnesses: yes or no',
  },
  {
    key: 'log',
    env: 'LASTGOOD_LOG',
    flag: '--log',
    standard: 'warn',
    meaning: 'Least level that is logged: silent, error, warn, info or debug',
  },
  {
    key: 'share',
    env: 'LASTGOOD_SHARE',
    flag: '--share',
    standard: 'no',
    meaning: 'Listen on the local network with a token and a certificate made here, and print a QR code: yes or no',
  },
] as const;

export type SettingKey = (typeof settingRows)[number]['key'];

const yesNo = z.enum(['yes', 'no']).transform((text) => text === 'yes');
const wholeNumber = (minimum: number, maximum: number) =>
  z.string().regex(/^\d+$/, 'a whole number').transform(Number).pipe(z.number().min(minimum).max(maximum));

const settingsSchema = z.strictObject({
  host: z.string().min(1).max(253),
  port: wholeNumber(0, 65_535),
  file: z.string().min(1),
  token: z
    .string()
    .refine((text) => text === '' || /^[\x21-\x7e]{16,200}$/.test(text), '16 to 200 visible ASCII characters'),
  allowedHosts: z.string().transform((text) =>
    text
      .split(',')
      .map((name) => name.trim().toLowerCase())
      .filter((name) => name !== ''),
  ),
  bodyLimitMb: wholeNumber(1, 1_024),
  restoreLimitMb: wholeNumber(1, 4_096),
  deadlineMs: wholeNumber(1, 3_600_000),
  cachedModels: wholeNumber(1, 1_000),
  demo: yesNo,
  log: z.enum(['silent', 'error', 'warn', 'info', 'debug']),
  share: yesNo,
});

export type Settings = Readonly<z.infer<typeof settingsSchema>>;

export type SettingsResult =
  | { readonly ok: true; readonly settings: Settings }
  | { readonly ok: false; readonly problems: readonly string[] };

/**
 * Reads the settings: a flag holds over the environment, that over the standard. `--share` alone means yes. Unknown flags and
 * refused values are all told at once.
 */
export function readSettings(
  env: Readonly<Record<string, string | undefined>>,
  flags: readonly string[],
): SettingsResult {
  const problems: string[] = [];
  const given = readFlags(flags, problems);
  const texts = Object.fromEntries(
    settingRows.map((row) => [row.key, given.get(row.key) ?? env[row.env] ?? row.standard]),
  );
  const parsed = settingsSchema.safeParse(texts);
  if (!parsed.success) {
    for (const issue of parsed.error.issues) {
      const row = settingRows.find(({ key }) => key === issue.path[0]);
      const value =
        row?.key === 'token' ? 'the value given' : JSON.stringify(row === undefined ? null : texts[row.key]);
      problems.push(`${row?.env ?? 'a setting'}: ${value} is refused: ${issue.message}`);
    }
  }
  if (parsed.success && problems.length === 0) {
    const { host, share, token } = parsed.data;
    if (isLoopback(host) || share || token !== '') return { ok: true, settings: parsed.data };
    problems.push(
      `LASTGOOD_HOST: ${host} can be reached from other machines, so LASTGOOD_TOKEN must be set; or use --share, which makes one`,
    );
  }
  return { ok: false, problems };
}

function readFlags(flags: readonly string[], problems: string[]): Map<SettingKey, string> {
  const given = new Map<SettingKey, string>();
  for (let index = 0; index < flags.length; index++) {
    const [name, inline] = splitOnce(flags[index]);
    const row = settingRows.find(({ flag }) => flag === name);
    if (row === undefined) {
      problems.push(`${name}: no such flag; there are ${settingRows.flatMap(({ flag }) => flag ?? []).join(', ')}`);
      continue;
    }
    const next = flags[index + 1];
    if (inline !== null) given.set(row.key, inline);
    else if (next !== undefined && !next.startsWith('--')) {
      given.set(row.key, next);
      index++;
    } else if (row.key === 'share' || row.key === 'demo') given.set(row.key, 'yes');
    else problems.push(`${name}: needs a value`);
  }
  return given;
}

function splitOnce(flag: string): [string, string | null] {
  const at = flag.indexOf('=');
  return at < 0 ? [flag, null] : [flag.slice(0, at), flag.slice(at + 1)];
}

/** Whether only this machine can reach the address. */
export function isLoopback(host: string): boolean {
  const bare = host.replace(/^\[|\]$/g, '').toLowerCase();
  return bare === 'localhost' || bare === '::1' || /^127(\.\d{1,3}){3}$/.test(bare);
}
