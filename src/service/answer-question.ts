// One question as data in, one answer as data out, over a built model: pure, so that it can run in this thread or another.
// It must not read stores or requests.

import { answerFeeds } from '../core/answers/feeds.js';
import type { Model } from '../core/answers/model.js';
import { answerPlugCircuits } from '../core/answers/plug-circuits.js';
import { answerProfile } from '../core/answers/profile.js';
import { answerReadings } from '../core/answers/readings.js';
import { answerSeparation } from '../core/answers/separation.js';
import type { FeedsAnswer } from '../core/answers/shapes/feeds.js';
import type { MeasuredValue } from '../core/answers/shapes/measured.js';
import type { MeterKind, ProfileAnswer, ReadingsAnswer } from '../core/answers/shapes/readings.js';
import type { PlugCircuitsAnswer, SeparationAnswer } from '../core/answers/shapes/separation.js';
import type { UnplugAnswer } from '../core/answers/shapes/unplug.js';
import { answerUnplug } from '../core/answers/unplug.js';
import type { ResolvedState } from '../core/circuit/resolved-state.js';
import type { LoadFunction } from '../core/graph/element.js';
import { QuestionReader, type StateChoice } from './question-reader.js';

/** What each kind of question asks; names may be in any case. */
export interface QuestionFields {
  readonly feeds: { readonly function: string; readonly state: StateChoice };
  readonly unplug: { readonly plugs: readonly string[]; readonly state: StateChoice };
  readonly readings: {
    readonly pairs: readonly { readonly red: string; readonly black?: string }[];
    readonly meter: MeterKind;
    readonly measured: readonly MeasuredValue[];
    readonly state: StateChoice;
  };
  readonly profile: { readonly function: string; readonly state: StateChoice };
  readonly 'plug-circuits': { readonly plug: string };
  /** Exactly one of assembly and function. */
  readonly separation: { readonly state: StateChoice } & (
    | { readonly assembly: string }
    | { readonly function: string }
  );
}

export interface Answers {
  readonly feeds: FeedsAnswer;
  readonly unplug: UnplugAnswer;
  readonly readings: ReadingsAnswer;
  readonly profile: ProfileAnswer;
  readonly 'plug-circuits': PlugCircuitsAnswer;
  readonly separation: SeparationAnswer;
}

export type QuestionKind = keyof QuestionFields;

/** Reads the names with the reader it is given, then, once nothing was refused, answers. */
type Answerer<K extends QuestionKind> = (
  model: Model,
  fields: QuestionFields[K],
  reader: QuestionReader,
  isCancelled: () => boolean,
) => Answers[K];

const answerers: { readonly [K in QuestionKind]: Answerer<K> } = {
  feeds: (model, fields, reader, isCancelled) => answerFeeds(model, functionAndState(fields, reader), isCancelled),

  profile: (model, fields, reader, isCancelled) => answerProfile(model, functionAndState(fields, reader), isCancelled),

  unplug: (model, { plugs, state }, reader, isCancelled) => {
    const names = plugs.map((plug, i) => reader.plug(`/plugs/${i}`, plug));
    const resolved = reader.state(state);
    reader.finish();
    return answerUnplug(model, { plugs: [...new Set(names)], state: resolved }, isCancelled);
  },

  readings: (model, { pairs, meter, measured, state }, reader, isCancelled) => {
    const read = pairs.map(({ red, black }, i) => ({
      red: meter === 'clamp' ? reader.conductor(`/pairs/${i}/red`, red) : reader.point(`/pairs/${i}/red`, red),
      ...(black === undefined ? {} : { black: reader.point(`/pairs/${i}/black`, black) }),
    }));
    const values = measured.map((it, i) => readMeasured(`/measured/${i}`, it, reader));
    const resolved = reader.state(state);
    reader.finish();
    return answerReadings(model, { pairs: read, meter, measured: values, state: resolved }, isCancelled);
  },

  'plug-circuits': (model, { plug }, reader) => {
    const name = reader.plug('/plug', plug);
    reader.finish();
    return answerPlugCircuits(model, { plug: name });
  },

  separation: (model, fields, reader) => {
    if ('function' in fields) return answerSeparation(model, functionAndState(fields, reader));
    const assembly = reader.assembly('/assembly', fields.assembly);
    const state = reader.state(fields.state);
    reader.finish();
    return answerSeparation(model, { assembly, state });
  },
};

/** Throws `question-invalid` with every name that is unknown, and the core's `AnswerStopped` when cancelled. */
export function answerQuestion<K extends QuestionKind>(
  model: Model,
  kind: K,
  fields: QuestionFields[K],
  isCancelled: () => boolean,
): Answers[K] {
  return answerers[kind](model, fields, new QuestionReader(model.graph), isCancelled);
}

function readMeasured(path: string, it: MeasuredValue, reader: QuestionReader): MeasuredValue {
  switch (it.kind) {
    case 'volts': {
      const { black } = it;
      const red = reader.point(`${path}/red`, it.red);
      return { ...it, red, ...(black === undefined ? {} : { black: reader.point(`${path}/black`, black) }) };
    }
    case 'battery':
      return { ...it, battery: reader.battery(`${path}/battery`, it.battery) };
    case 'amps':
      return { ...it, at: reader.conductor(`${path}/at`, it.at) };
  }
}

function functionAndState(
  fields: { readonly function: string; readonly state: StateChoice },
  reader: QuestionReader,
): { readonly function: LoadFunction; readonly state: ResolvedState } {
  const found = reader.function('/function', fields.function);
  const state = reader.state(fields.state);
  reader.finish();
  if (found === null) throw new Error('a refused function must have ended the question');
  return { function: found, state };
}
