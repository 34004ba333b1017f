// Settings from environment and flags: which holds over which, what is refused, and that nobody listens openly by accident.
// It must not start a server.

import { describe, expect, it } from 'vitest';
import { isLoopback, readSettings, settingRows } from '../../src/service/settings.js';

const settingsOf = (env: Record<string, string>, flags: string[] = []) => {
  const read = readSettings(env, flags);
  if (!read.ok) throw new Error(read.problems.join('\n'));
  return read.settings;
};

const problemsOf = (env: Record<string, string>, flags: string[] = []): readonly string[] => {
  const read = readSettings(env, flags);
  return read.ok ? [] : read.problems;
};

describe('settings', () => {
  it('listen on loopback when nobody says otherwise', () => {
    expect(settingsOf({})).toMatchObject({ host: '127.0.0.1', port: 4700, token: '', demo: true, share: false });
  });

  it('let a flag hold over the environment', () => {
    expect(settingsOf({ LASTGOOD_PORT: '5000' }).port).toBe(5000);
    expect(settingsOf({ LASTGOOD_PORT: '5000' }, ['--port', '6000']).port).toBe(6000);
    expect(settingsOf({ LASTGOOD_PORT: '5000' }, ['--port=7000']).port).toBe(7000);
  });

  it('refuse to listen where others can reach without a token', () => {
    expect(problemsOf({}, ['--host', '0.0.0.0'])).toEqual([expect.stringContaining('LASTGOOD_TOKEN')]);
    expect(problemsOf({}, ['--host', '192.0.2.7']).length).toBe(1);
    expect(problemsOf({}, ['--host', 'workshop.example']).length).toBe(1);
    expect(settingsOf({ LASTGOOD_TOKEN: 'a-token-of-some-length' }, ['--host', '0.0.0.0']).host).toBe('0.0.0.0');
  });

  it('refuse a token that is short or cannot be typed, and do not repeat it', () => {
    for (const token of ['short', 'sixteen letters with blanks', 'ünlesbar-ünlesbar-x']) {
      const [problem] = problemsOf({ LASTGOOD_TOKEN: token });
      expect(problem).toContain('LASTGOOD_TOKEN');
      expect(problem).not.toContain(token);
    }
  });

  it('tell everything that is wrong at once', () => {
    const problems = problemsOf({ LASTGOOD_PORT: '99999', LASTGOOD_LOG: 'loud' }, ['--colour', '--file']);
    expect(problems.length).toBe(4);
    expect(problems.join('\n')).toMatch(/--colour.*no such flag[\s\S]*--file.*needs a value/);
    expect(problems.join('\n')).toMatch(/LASTGOOD_PORT.*"99999"/);
    expect(problems.join('\n')).toMatch(/LASTGOOD_LOG.*"loud"/);
  });

  it.each(['-1', '1.5', '', 'abc', '1e3', '0x10'])('refuse the port %j', (port) => {
    expect(problemsOf({ LASTGOOD_PORT: port }).length).toBe(1);
  });

  it('take --share alone as yes, and then need no token from outside', () => {
    expect(settingsOf({}, ['--share']).share).toBe(true);
    expect(settingsOf({}, ['--share', '--port', '5000'])).toMatchObject({ share: true, port: 5000 });
  });

  it('read host names in any case', () => {
    expect(settingsOf({ LASTGOOD_ALLOWED_HOSTS: 'Workshop.local, bench,' }).allowedHosts).toEqual([
      'workshop.local',
      'bench',
    ]);
  });

  it('have one name each', () => {
    expect(new Set(settingRows.map(({ env }) => env)).size).toBe(settingRows.length);
    const flags = settingRows.flatMap(({ flag }) => flag ?? []);
    expect(new Set(flags).size).toBe(flags.length);
    // A token in the list of processes is no secret.
    expect(settingRows.find(({ key }) => key === 'token')?.flag).toBeNull();
  });
});

describe('loopback', () => {
  it.each(['127.0.0.1', '127.9.9.9', 'localhost', 'LOCALHOST', '::1', '[::1]'])('is %s', (host) => {
    expect(isLoopback(host)).toBe(true);
  });

  it.each(['0.0.0.0', '::', '10.0.0.1', 'localhost.example', '127.0.0.1.example', '128.0.0.1', ''])(
    'is not %j',
    (host) => {
      expect(isLoopback(host)).toBe(false);
    },
  );
});
