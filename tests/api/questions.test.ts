// The questions over HTTP: the body is exactly what the core answers, key for key; names and states are read as people write them.
// It must not judge the numbers; the core's tests and the SPICE oracle do.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answerFeeds } from '../../src/core/answers/feeds.js';
import { buildModel, type Model } from '../../src/core/answers/model.js';
import { answerPlugCircuits } from '../../src/core/answers/plug-circuits.js';
import { answerProfile } from '../../src/core/answers/profile.js';
import { answerReadings } from '../../src/core/answers/readings.js';
import { answerSeparation } from '../../src/core/answers/separation.js';
import { answerUnplug } from '../../src/core/answers/unplug.js';
import { namedState, resolveState, restState } from '../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { fixtureRecord } from '../support/fixture-records.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
let board: string;
let tern: string;
const boardModel = buildModel(fixtureRecord('bench-board'));
const ternModel = buildModel(fixtureRecord('tern'));

beforeAll(async () => {
  server = await startTestServer();
  board = await server.keep('bench-board');
  tern = await server.keep('tern');
});

afterAll(() => server.close());

const ask = (harness: string, question: string, body: object) =>
  server.request.post(`/api/v1/harnesses/${harness}/${question}`).send(body);

function stateOf(model: Model, choice: string | OperatingState): ResolvedState {
  const resolved = typeof choice === 'string' ? namedState(model.graph, choice) : resolveState(model.graph, choice);
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  return resolved.state;
}

function functionOf(model: Model, id: string) {
  const found = model.graph.functions.get(id);
  if (found === undefined) throw new Error(`no function ${id}`);
  return found;
}

/** What the core made, as JSON can carry it: -0 becomes 0, nothing else may change. */
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('the answer over HTTP is the core`s own', () => {
  it('feeds', async () => {
    const { status, body, headers } = await ask(board, 'feeds', { function: 'e1', state: 'lamp ON' });
    expect([status, headers.etag]).toEqual([200, '"1"']);
    const own = answerFeeds(boardModel, {
      function: functionOf(boardModel, 'E1'),
      state: stateOf(boardModel, 'Lamp on'),
    });
    expect(own.supplies.length).toBeGreaterThan(0);
    expect(body).toEqual(asJson(own));
  });

  it('unplug', async () => {
    const { status, body } = await ask(board, 'unplug', { plugs: ['x1', 'X1', 'K1'], state: 'Lamp on' });
    expect(status).toBe(200);
    const own = answerUnplug(boardModel, { plugs: ['X1', 'K1'], state: stateOf(boardModel, 'Lamp on') });
    expect(own.die.length).toBeGreaterThan(0);
    expect(body).toEqual(asJson(own));
  });

  it.each(['voltmeter', 'low-impedance-voltmeter', 'test-lamp'] as const)('readings by %s', async (meter) => {
    const pairs = [{ red: 'X1.receptacle/1' }, { red: 'bat1/+', black: 'G1' }, { red: 'K1.body/87' }];
    const { status, body } = await ask(board, 'readings', { pairs, meter, state: 'Lamp on' });
    expect(status).toBe(200);
    const canonical = [{ red: 'X1.receptacle/1' }, { red: 'BAT1/pos', black: 'G1' }, { red: 'K1.body/87' }];
    expect(body).toEqual(
      asJson(answerReadings(boardModel, { pairs: canonical, meter, state: stateOf(boardModel, 'Lamp on') })),
    );
  });

  it('readings by clamp round a wire and by ohmmeter, with nothing said of the state', async () => {
    const clamp = await ask(board, 'readings', { pairs: [{ red: 'w7' }], meter: 'clamp', state: 'Lamp on' });
    expect(clamp.body).toEqual(
      asJson(
        answerReadings(boardModel, { pairs: [{ red: 'W7' }], meter: 'clamp', state: stateOf(boardModel, 'Lamp on') }),
      ),
    );
    const pairs = [{ red: 'X1.plug/1', black: 'X1.plug/2' }];
    const ohms = await ask(board, 'readings', { pairs, meter: 'ohmmeter' });
    expect(ohms.body).toEqual(
      asJson(answerReadings(boardModel, { pairs, meter: 'ohmmeter', state: restState(boardModel.graph) })),
    );
  });

  it('readings of a harness on which something was measured, names in any case', async () => {
    const pairs = [{ red: 'E1/feed' }];
    const { status, body } = await ask(board, 'readings', {
      pairs,
      state: 'Lamp on',
      measured: [
        { kind: 'battery', battery: 'bat1', value: 12.1 },
        { kind: 'volts', red: 'x1.receptacle/1', black: 'x1.plug/1', value: 0.012, accuracy: 0.0003 },
        { kind: 'amps', at: 'w7', value: 1.7 },
      ],
    });
    expect(status).toBe(200);
    const own = answerReadings(boardModel, {
      pairs,
      meter: 'voltmeter',
      state: stateOf(boardModel, 'Lamp on'),
      measured: [
        { kind: 'battery', battery: 'BAT1', value: 12.1 },
        { kind: 'volts', red: 'X1.receptacle/1', black: 'X1.plug/1', value: 0.012, accuracy: 0.0003 },
        { kind: 'amps', at: 'W7', value: 1.7 },
      ],
    });
    expect(body).toEqual(asJson(own));
    const plain = await ask(board, 'readings', { pairs, state: 'Lamp on' });
    const width = ({ low, high }: { low: number; high: number }): number => high - low;
    expect(width(body.readings[0].connected)).toBeLessThan(width(plain.body.readings[0].connected) / 2);
    expect(plain.body.measured).toEqual([]);
  });

  it('profile, in a state spelled out', async () => {
    const state = { name: 'as I stand here', positions: { s1: 'ON' }, measured: { BAT1: 11.8 } };
    const { status, body } = await ask(board, 'profile', { function: 'E1', state });
    expect(status).toBe(200);
    const own = answerProfile(boardModel, {
      function: functionOf(boardModel, 'E1'),
      state: stateOf(boardModel, state),
    });
    expect(own.points.length).toBeGreaterThan(5);
    expect(body).toEqual(asJson(own));
  });

  it('plug circuits', async () => {
    const { body } = await ask(board, 'plug-circuits', { plug: 'x1' });
    expect(body).toEqual(asJson(answerPlugCircuits(boardModel, { plug: 'X1' })));
  });

  it('separation of a circuit and of an assembly', async () => {
    const circuit = await ask(board, 'separation', { function: 'E1', state: 'Lamp on' });
    expect(circuit.body).toEqual(
      asJson(
        answerSeparation(boardModel, {
          function: functionOf(boardModel, 'E1'),
          state: stateOf(boardModel, 'Lamp on'),
        }),
      ),
    );
    const [{ address }] = ternModel.graph.record.assemblies ?? [];
    const assembly = await ask(tern, 'separation', { assembly: address.toLowerCase(), state: 'Parked' });
    expect(assembly.status).toBe(200);
    expect(assembly.body).toEqual(
      asJson(answerSeparation(ternModel, { assembly: address, state: stateOf(ternModel, 'Parked') })),
    );
  });

  it('on the Tern as well, for a function among several of one lamp', async () => {
    const { body } = await ask(tern, 'feeds', { function: 'e1:DIP', state: 'Dip' });
    expect(body).toEqual(
      asJson(answerFeeds(ternModel, { function: functionOf(ternModel, 'E1:dip'), state: stateOf(ternModel, 'Dip') })),
    );
  });
});

describe('more than the answer', () => {
  it('comes only when asked for', async () => {
    const slim = await ask(board, 'feeds', { function: 'E1', state: 'Lamp on' });
    const full = await ask(board, 'feeds', { function: 'E1', state: 'Lamp on', include: ['solution'] });
    const { solution, ...rest } = full.body;
    expect(rest).toEqual(slim.body);
    expect(slim.body).not.toHaveProperty('solution');
    expect(solution).toEqual((await ask(board, 'solve', { state: 'Lamp on' })).body);
    expect(solution.outcome).toBe('settled');
    expect(solution.solutions[0].points.length).toBe(boardModel.graph.points.size);
    expect(solution.solutions[0].elements.length).toBe(boardModel.graph.elements.size);
  });
});

describe('an old revision', () => {
  it('can be asked as well', async () => {
    const apart = await startTestServer();
    const id = await apart.keep('bench-board');
    await apart.request
      .patch(`/api/v1/harnesses/${id}`)
      .set('If-Match', '"1"')
      .send({ edits: [{ op: 'set', what: 'wire', address: 'W1', fields: { lengthMetres: 100 } }] })
      .expect(200);
    const url = `/api/v1/harnesses/${id}/feeds`;
    const old = await apart.request.post(`${url}?revision=1`).send({ function: 'E1', state: 'Lamp on' });
    const now = await apart.request.post(url).send({ function: 'E1', state: 'Lamp on' });
    expect([old.headers.etag, now.headers.etag]).toEqual(['"1"', '"2"']);
    expect(now.body.amps).toBeLessThan(old.body.amps);
    const none = await apart.request.post(`${url}?revision=9`).send({ function: 'E1' });
    expect([none.status, none.body.code]).toEqual([404, 'revision-not-found']);
    await apart.close();
  });
});

describe('look-ups', () => {
  it('offer everything that can be asked about', async () => {
    const { body } = await server.request.get(`/api/v1/harnesses/${board}/choices`);
    expect(body.functions).toEqual([
      {
        id: 'E1',
        part: 'E1',
        name: 'Lamp',
        location: 'right of the board',
        runsIn: ['Lamp on', 'Lamp on, battery low', 'Relay bridged'],
      },
    ]);
    expect(body.plugs.map(({ address }: { address: string }) => address)).toEqual(['F1', 'K1', 'X1', 'E1']);
    expect(body.positions).toEqual([{ part: 'S1', name: 'Lamp switch', positions: ['off', 'on'], rest: 'off' }]);
    expect(body.reference).toBe('BAT1/neg');
    for (const { address } of body.plugs) {
      expect((await ask(board, 'unplug', { plugs: [address], state: 'Lamp on' })).status).toBe(200);
    }
  });

  it('give the states whole', async () => {
    const { body } = await server.request.get(`/api/v1/harnesses/${board}/states`);
    expect(body.states).toEqual(fixtureRecord('bench-board').states);
  });

  it('find', async () => {
    const { body } = await server.request.get(`/api/v1/harnesses/${tern}/find?q=left%20dip&limit=3`);
    expect(body.found.length).toBe(3);
    expect(body.found[0]).toMatchObject({ kind: 'function', address: 'E1:dip' });
  });
});

describe('a question that does not fit', () => {
  it('names everything that is wrong with it, where, and what is accepted', async () => {
    const { status, body } = await ask(board, 'readings', {
      pairs: [{ red: 'X9.plug/1' }, { red: 'G1', black: 'K1/99' }],
      state: { name: 'x', positions: { S1: 'half', S7: 'on' }, unplugged: ['W1'] },
    });
    expect([status, body.code, body.issueCount]).toEqual([422, 'question-invalid', 5]);
    expect(body.issues.map(({ path }: { path: string }) => path)).toEqual([
      '/pairs/0/red',
      '/pairs/1/black',
      '/state/positions/S1',
      '/state/positions/S7',
      '/state/unplugged/0',
    ]);
    expect(body.issues[2].accepted).toBe('off, on');
  });

  it.each([
    ['feeds', { function: 'E9' }, 'unknown-function', '/function'],
    ['profile', { function: 'S1' }, 'unknown-function', '/function'],
    ['unplug', { plugs: ['SP1'] }, 'wrong-kind', '/plugs/0'],
    ['plug-circuits', { plug: 'nope' }, 'unknown-name', '/plug'],
    ['separation', { assembly: 'nope' }, 'unknown-assembly', '/assembly'],
    ['feeds', { function: 'E1', state: 'Underwater' }, 'unknown-state', '/state'],
    ['readings', { pairs: [{ red: 'X1' }] }, 'unknown-point', '/pairs/0/red'],
    ['readings', { pairs: [{ red: 'BAT1/pos' }], meter: 'clamp' }, 'unknown-wire', '/pairs/0/red'],
    [
      'readings',
      { pairs: [{ red: 'G1' }], measured: [{ kind: 'volts', red: 'X9/1', value: 1 }] },
      'unknown-point',
      '/measured/0/red',
    ],
    [
      'readings',
      { pairs: [{ red: 'G1' }], measured: [{ kind: 'battery', battery: 'K1', value: 12 }] },
      'wrong-kind',
      '/measured/0/battery',
    ],
    [
      'readings',
      { pairs: [{ red: 'G1' }], measured: [{ kind: 'amps', at: 'G1', value: 1 }] },
      'unknown-wire',
      '/measured/0/at',
    ],
  ])('%s %j', async (question, body, code, path) => {
    const refused = await ask(board, question, body);
    expect(refused.status).toBe(422);
    expect(refused.body.issues).toEqual([expect.objectContaining({ code, path })]);
    expect(refused.body.issues[0].accepted).not.toBe('');
  });

  it.each([
    [{ kind: 'volts', red: 'G1', value: 1e9 }, '/measured/0/value'],
    [{ kind: 'volts', red: 'G1', value: 1, accuracy: 0 }, '/measured/0/accuracy'],
    [{ kind: 'battery', battery: 'BAT1', value: -12 }, '/measured/0/value'],
    [{ kind: 'watts', value: 1 }, '/measured/0/kind'],
  ])('a measured value out of bounds: %j', async (measured, path) => {
    const refused = await ask(board, 'readings', { pairs: [{ red: 'G1' }], measured: [measured] });
    expect(refused.status).toBe(400);
    expect(refused.body.issues.map((issue: { path: string }) => issue.path)).toContain(path);
  });

  it('asks which function is meant when a lamp has several', async () => {
    const { body } = await ask(tern, 'feeds', { function: 'E1', state: 'Dip' });
    expect(body.issues).toEqual([expect.objectContaining({ code: 'several-functions', accepted: 'E1:dip, E1:main' })]);
  });
});

describe('an answer that takes too long', () => {
  it('is stopped at the deadline and said to be', async () => {
    let now = 0;
    const { MemoryHarnessStore } = await import('../../src/store/memory/memory-harness-store.js');
    const { createQuestions } = await import('../../src/service/questions.js');
    const store = new MemoryHarnessStore();
    await store.create('board', { record: fixtureRecord('tern'), savedAt: '2026-01-01T00:00:00.000Z', note: null });
    const questions = createQuestions({ store, stopwatch: () => (now += 1000), deadlineMs: 1, cachedModels: 1 });
    await expect(questions.solve({ harness: 'board' }, 'Everything on')).rejects.toMatchObject({
      code: 'answer-too-slow',
      status: 503,
    });
  });

  it.each([
    ['feeds', { function: 'E1:dip', state: 'Dip' }],
    ['profile', { function: 'E1:dip', state: 'Dip' }],
    ['unplug', { plugs: ['X1'], state: 'Dip' }],
    ['readings', { pairs: [{ red: 'E1/dip' }], state: 'Dip' }],
    ['solve', { state: 'Dip' }],
  ])('%s over HTTP: 503 with its code, and the next question with time enough is answered', async (question, body) => {
    const hasty = await startTestServer({ deadlineMs: 0 });
    const id = await hasty.keep('tern');
    const late = await hasty.request.post(`/api/v1/harnesses/${id}/${question}`).send(body);
    expect([late.status, late.body.code]).toEqual([503, 'answer-too-slow']);
    await hasty.close();
    expect((await ask(tern, question, body)).status).toBe(200);
  });
});
