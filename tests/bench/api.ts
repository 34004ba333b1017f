// How quickly the whole service answers over HTTP: questions on the Tern and on 5,000 wires, a repeated question against a bare route,
// light questions beside a heavy client, and the time from start to the first answer. Ends with one line of JSON.
// Run by `npm run bench:api`. It must not measure inside the server: everything is timed by a client on the loopback.

import { mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fastify from 'fastify';
import { fixtureDocument } from '../support/fixture-records.js';
import { generateHarness } from '../support/generate-harness.js';
import { seededRandom } from '../support/random.js';
import { type ServerProcess, startServerProcess } from '../support/server-process.js';

interface Question {
  readonly path: string;
  readonly body: unknown;
}

interface Choices {
  readonly functions: readonly { readonly id: string }[];
  readonly states: readonly string[];
  readonly plugs: readonly { readonly address: string }[];
  readonly points: readonly { readonly id: string }[];
}

/** Questions of each kind on a harness. */
const PER_KIND = 200;
const random = seededRandom(20);
const folder = mkdtempSync(join(tmpdir(), 'lastgood-bench-'));

const json = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

/** Milliseconds from the request to the last byte of an answer with status 200. */
async function timed(url: string, { path, body }: Question): Promise<number> {
  const start = performance.now();
  const response = await fetch(`${url}${path}`, json('POST', body));
  const text = await response.text();
  if (response.status !== 200)
    throw new Error(`${path} ${JSON.stringify(body)}: ${response.status} ${text.slice(0, 300)}`);
  return performance.now() - start;
}

function share(values: readonly number[], part: number): number {
  const sorted = [...values].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.ceil(part * sorted.length) - 1)];
}

const round = (value: number, digits = 1): number => Number(value.toFixed(digits));

async function questionsOn(server: ServerProcess, harness: string): Promise<Record<string, Question[]>> {
  const base = `/api/v1/harnesses/${harness}`;
  const record = (await (await server.request(`${base}/export.json`)).json()) as {
    parts: { address: string; kind: string }[];
    wires: { from: string; to: string }[];
    states?: { name: string }[];
  };
  const choices = (await (await server.request(`${base}/choices`)).json()) as Choices;
  const states = (record.states ?? []).map(({ name }) => name);
  const plugs = record.parts.filter(({ kind }) => kind === 'connector').map(({ address }) => address);
  const ends = record.wires.flatMap(({ from, to }) => [from, to]);
  const some = (make: () => Question): Question[] => Array.from({ length: PER_KIND }, make);
  return {
    feeds: some(() => ({
      path: `${base}/feeds`,
      body: { function: random.pick(choices.functions).id, state: random.pick(states) },
    })),
    unplug: some(() => ({ path: `${base}/unplug`, body: { plugs: [random.pick(plugs)], state: random.pick(states) } })),
    readings: some(() => ({
      path: `${base}/readings`,
      body: {
        state: random.pick(states),
        meter: 'voltmeter',
        pairs: Array.from({ length: 4 }, () => ({ red: random.pick(ends) })),
      },
    })),
  };
}

/** p99 of every kind with one client, each question new to the server. */
async function oneClient(server: ServerProcess, harness: string, name: string): Promise<number> {
  let worst = 0;
  for (const [kind, questions] of Object.entries(await questionsOn(server, harness))) {
    const [first, ...rest] = questions;
    const firstMs = await timed(server.url, first);
    const times: number[] = [];
    for (const question of rest) times.push(await timed(server.url, question));
    worst = Math.max(worst, share(times, 0.99));
    console.log(
      `${name} ${kind}: first ${round(firstMs)} ms, then p50 ${round(share(times, 0.5))}, p90 ${round(share(times, 0.9))}, p99 ${round(share(times, 0.99))} ms over ${times.length} questions`,
    );
  }
  return round(worst);
}

/** Answers per second with eight questions under way at any time. */
async function throughput(url: string, question: Question, seconds: number): Promise<number> {
  const end = performance.now() + seconds * 1000;
  let answers = 0;
  await Promise.all(
    Array.from({ length: 8 }, async () => {
      while (performance.now() < end) {
        await timed(url, question);
        answers += 1;
      }
    }),
  );
  return answers / seconds;
}

async function repeatedAgainstBare(server: ServerProcess, question: Question): Promise<number> {
  const bytes = await (await fetch(`${server.url}${question.path}`, json('POST', question.body))).text();
  const bare = fastify();
  bare.post('/bare', (_request, reply) => reply.header('content-type', 'application/json').send(bytes));
  await bare.listen({ host: '127.0.0.1', port: 0 });
  const bareUrl = `http://127.0.0.1:${(bare.server.address() as AddressInfo).port}`;
  const ratios: number[] = [];
  for (let turn = 0; turn < 3; turn++) {
    const own = await throughput(server.url, question, 2);
    const peer = await throughput(bareUrl, { path: '/bare', body: question.body }, 2);
    ratios.push(own / peer);
    console.log(
      `repeated feeds of ${bytes.length} bytes: ${Math.round(own)} answers/s, bare route ${Math.round(peer)}`,
    );
  }
  await bare.close();
  return round(share(ratios, 0.5), 2);
}

/** p99 of light questions beside one client that keeps asking the heaviest, over p99 alone. */
async function besideHeavy(server: ServerProcess, light: readonly Question[], heavy: Question): Promise<number> {
  const run = async (): Promise<number> => {
    const times: number[] = [];
    for (const question of light) times.push(await timed(server.url, question));
    return share(times, 0.99);
  };
  await run();
  const alone = await run();
  let going = true;
  const client = (async () => {
    while (going) await timed(server.url, heavy).catch(() => undefined);
  })();
  const beside = await run();
  going = false;
  await client;
  console.log(`light questions: p99 ${round(alone, 2)} ms alone, ${round(beside, 2)} ms beside the heaviest question`);
  return round(beside / alone, 2);
}

async function startToFirstAnswer(question: Question): Promise<number> {
  const times: number[] = [];
  for (let turn = 0; turn < 5; turn++) {
    const started = performance.now();
    const server = await startServerProcess({ file: join(folder, 'tern.sqlite') });
    await timed(server.url, question);
    times.push(performance.now() - started);
    await server.stop('SIGTERM');
  }
  console.log(`start to first answer: ${times.map((time) => Math.round(time)).join(', ')} ms`);
  return Math.round(share(times, 0.5));
}

async function main(): Promise<void> {
  const server = await startServerProcess({ file: join(folder, 'tern.sqlite') });
  const { harnesses } = (await (await server.request('/api/v1/harnesses')).json()) as {
    harnesses: { id: string; name: string }[];
  };
  const name = (fixtureDocument('tern') as { name: string }).name;
  const tern = harnesses.find((harness) => harness.name === name)?.id ?? '';
  const ternP99 = await oneClient(server, tern, 'tern');

  const feeds: Question = { path: `/api/v1/harnesses/${tern}/feeds`, body: { function: 'E1:dip', state: 'Dip' } };
  const repeatedOverBare = await repeatedAgainstBare(server, feeds);
  const { unplug } = await questionsOn(server, tern);
  const lightOverAlone = await besideHeavy(server, unplug.slice(0, 200), {
    path: `/api/v1/harnesses/${tern}/sneaks`,
    body: {},
  });

  const created = await server.request(
    '/api/v1/harnesses',
    json('POST', { record: generateHarness({ seed: 3, wires: 5000 }) }),
  );
  if (created.status !== 201)
    throw new Error(`the generated harness is refused: ${(await created.text()).slice(0, 500)}`);
  const large = ((await created.json()) as { harness: { id: string } }).harness.id;
  const largeP99 = await oneClient(server, large, '5,000 wires');
  await server.stop('SIGTERM');

  const startMs = await startToFirstAnswer(feeds);
  console.log(JSON.stringify({ ternP99, largeP99, repeatedOverBare, lightOverAlone, startMs, questions: PER_KIND }));
}

await main().finally(() => rmSync(folder, { recursive: true, force: true }));
