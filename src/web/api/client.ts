// The operations of the API that the page uses, one function each.
// It must not keep anything; state does.

import { path, type RequestOptions, type Result, request } from './http.js';
import type {
  Choices,
  Comparison,
  Edit,
  Feeds,
  FoundEntry,
  HarnessHead,
  HarnessRecord,
  HuntHead,
  Imported,
  MeterKind,
  OperatingState,
  PlugCircuits,
  Profile,
  Readings,
  Revision,
  RevisionInfo,
  SavedHarness,
  Separation,
  Unplug,
} from './types.js';

/** A named state, or one spelled out. */
export type StateQuestion = string | OperatingState;

type Signal = Pick<RequestOptions, 'signal'>;
const at = (harness: string, ...rest: readonly string[]): string => path(['harnesses', harness, ...rest]);

export const listHarnesses = (options: Signal): Promise<Result<{ harnesses: HarnessHead[]; next: string | null }>> =>
  request('GET', path(['harnesses'], { limit: 200 }), options);

/** Brings in the invented vehicles; those that are there stay as they are. */
export const loadDemo = (): Promise<Result<{ harnesses: readonly string[] }>> => request('POST', path(['demo']));

export const listHunts = (harness: string, options: Signal): Promise<Result<{ hunts: readonly HuntHead[] }>> =>
  request('GET', at(harness, 'hunts'), options);

export const getHarness = (harness: string, options: Signal): Promise<Result<Revision>> =>
  request('GET', at(harness), options);

export const askFeeds = (
  harness: string,
  body: { function: string; state: StateQuestion },
  options: Signal,
): Promise<Result<Feeds>> => request('POST', at(harness, 'feeds'), { ...options, body });

export const askProfile = (
  harness: string,
  body: { function: string; state: StateQuestion },
  options: Signal,
): Promise<Result<Profile>> => request('POST', at(harness, 'profile'), { ...options, body });

export const askUnplug = (
  harness: string,
  body: { plugs: readonly string[]; state: StateQuestion },
  options: Signal,
): Promise<Result<Unplug>> => request('POST', at(harness, 'unplug'), { ...options, body });

export const askReadings = (
  harness: string,
  body: { pairs: readonly { red: string; black?: string }[]; state: StateQuestion; meter: MeterKind },
  options: Signal,
): Promise<Result<Readings>> => request('POST', at(harness, 'readings'), { ...options, body });

export const askPlugCircuits = (
  harness: string,
  body: { plug: string },
  options: Signal,
): Promise<Result<PlugCircuits>> => request('POST', at(harness, 'plug-circuits'), { ...options, body });

export const askSeparation = (
  harness: string,
  body: { assembly: string; state: StateQuestion } | { function: string; state: StateQuestion },
  options: Signal,
): Promise<Result<Separation>> => request('POST', at(harness, 'separation'), { ...options, body });

export const find = (harness: string, query: string, options: Signal): Promise<Result<{ found: FoundEntry[] }>> =>
  request('GET', path(['harnesses', harness, 'find'], { q: query }), options);

export const getChoices = (harness: string, options: Signal): Promise<Result<Choices>> =>
  request('GET', at(harness, 'choices'), options);

export const listRevisions = (harness: string, options: Signal): Promise<Result<{ revisions: RevisionInfo[] }>> =>
  request('GET', at(harness, 'revisions'), options);

export const compareRevisions = (
  harness: string,
  revisions: { from: number; to: number },
  options: Signal,
): Promise<Result<Comparison>> => request('GET', path(['harnesses', harness, 'compare'], revisions), options);

/** Keeps the edits as a new revision, unless the newest is no longer `from`. */
export const editHarness = (
  harness: string,
  from: number,
  body: { edits: readonly Edit[]; note?: string },
): Promise<Result<SavedHarness>> => request('PATCH', at(harness), { body, ifMatch: `"${from}"` });

export type ImportInput =
  | { readonly document: unknown }
  | {
      readonly sheets: readonly { readonly name: string; readonly base64: string }[];
      readonly name?: string;
      /** Sheet -> header -> field. */
      readonly columns?: Readonly<Record<string, Readonly<Record<string, string>>>>;
    };

/** What would become of an import; keeps nothing. */
export const previewImport = (input: ImportInput, options: Signal): Promise<Result<Imported>> =>
  request('POST', path(['imports'], { store: 'false' }), { ...options, body: input });

export const keepImport = (input: ImportInput): Promise<Result<Imported>> =>
  request('POST', path(['imports']), { body: input });

export const exportJson = (harness: string): Promise<Result<HarnessRecord>> =>
  request('GET', at(harness, 'export.json'));

export const exportSheets = (
  harness: string,
): Promise<Result<{ sheets: readonly { readonly name: string; readonly text: string }[] }>> =>
  request('GET', at(harness, 'sheets'));
