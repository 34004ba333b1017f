// The library's public names, in the order in which they are used: record, graph, circuit, answers.
// It must not do anything; whatever is not named here may change without notice.

export { answerFeeds } from './core/answers/feeds.js';
export { findMistakes } from './core/answers/findings/find-mistakes.js';
// The questions.
export { buildModel, type Model } from './core/answers/model.js';
export { buildPlan, type PlanQuestion } from './core/answers/plans/build-plan.js';
export { type Drift, driftOf, type KeptValue } from './core/answers/plans/drift.js';
export { type Judgement, judgeReading, type TypedReading } from './core/answers/plans/judge-reading.js';
export { answerPlugCircuits } from './core/answers/plug-circuits.js';
export { answerProfile } from './core/answers/profile.js';
export { answerReadings } from './core/answers/readings.js';
export { answerSeparation } from './core/answers/separation.js';
export type { FeedsAnswer } from './core/answers/shapes/feeds.js';
export type { Finding, FindingsAnswer } from './core/answers/shapes/findings.js';
export type { Plan, PlanStep } from './core/answers/shapes/plans.js';
export type { MeterKind, ProfileAnswer, ReadingsAnswer } from './core/answers/shapes/readings.js';
export type { PlugCircuitsAnswer, SeparationAnswer } from './core/answers/shapes/separation.js';
export type { Sneak, SneaksAnswer } from './core/answers/shapes/sneak.js';
export type { UnplugAnswer } from './core/answers/shapes/unplug.js';
export { findSneaks } from './core/answers/sneak.js';
export { answerUnplug } from './core/answers/unplug.js';
// Its circuit in an operating state.
export { compileCircuit } from './core/circuit/compile.js';
export { namedState, resolveState, restState } from './core/circuit/resolve-state.js';
export type { ResolvedState, StateIssue, StateResolution } from './core/circuit/resolved-state.js';
export { type SettleOptions, settle } from './core/circuit/settle.js';
export { type Change, type Outcome, type Solution, solutionsOf } from './core/circuit/solution.js';
// Its graph: points and conductive elements.
export { buildHarnessGraph } from './core/graph/build-harness-graph.js';
export type { Element, LoadFunction, Point } from './core/graph/element.js';
export type { HarnessGraph, Resolved } from './core/graph/harness-graph.js';
export { normaliseAddress } from './core/record/addresses.js';
export { compareRecords, type Difference } from './core/record/compare-records.js';
export { parseRecord } from './core/record/parse-record.js';
export { type Part, type PartKind, type PartOf, partKinds } from './core/record/part.js';
// A record: read it, write it, compare two.
export { type CsvOptions, readCsv, type SheetText } from './core/record/read-csv.js';
export { type HarnessRecord, recordSchema, type Wire } from './core/record/record.js';
export type { ParsedRecord, RecordIssue } from './core/record/record-issue.js';
export type { OperatingState } from './core/record/state.js';
export { writeCsv } from './core/record/write-csv.js';
