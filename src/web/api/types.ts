// Names, for the page's own use, of the shapes that the API publishes.
// It must not describe a shape itself: all of them are generated from openapi/.

import type { components, operations } from '../api-types.js';

type Schemas = components['schemas'];

export type HarnessHead = Schemas['Harness'];
export type Revision = Schemas['Revision'];
export type RevisionInfo = Schemas['RevisionInfo'];
export type SavedHarness = Schemas['SavedHarness'];
export type Comparison = Schemas['Comparison'];
export type Edit = Schemas['Edit'];
export type Issue = Schemas['Issue'];
export type Choices = Schemas['Choices'];
export type PositionChoice = Choices['positions'][number];
export type FoundEntry = Schemas['Found']['found'][number];
export type HarnessRecord = Schemas['HarnessRecord'];
export type Part = HarnessRecord['parts'][number];
export type PartOf<K extends Part['kind']> = Extract<Part, { kind: K }>;
export type Wire = HarnessRecord['wires'][number];
export type OperatingState = NonNullable<HarnessRecord['states']>[number];
export type Feeds = Schemas['Feeds'];
export type FeedPath = Feeds['supplies'][number];
export type FeedStep = FeedPath['steps'][number];
export type Unplug = Schemas['Unplug'];
export type LivePin = Unplug['livePins'][number];
export type ChangedFunction = Unplug['die'][number];
export type Readings = Schemas['Readings'];
export type Reading = Readings['readings'][number];
export type MeterKind = Reading['meter'];
export type Profile = Schemas['Profile'];
export type ProfilePoint = Profile['points'][number];
export type Predicted = Reading['connected'];
export type Basis = Feeds['basis'];
export type Caution = Feeds['cautions'][number];
export type Condition = Feeds['condition'];
export type PlugCircuits = Schemas['PlugCircuits'];

export type Separation = Schemas['Separation'];
export type Imported = Schemas['Imported'];

export type Hunt = Schemas['Hunt'];
export type HuntHead = Schemas['HuntList']['hunts'][number];
/** The next check as the card shows it; `id` goes back with the answer. */
export type HuntCard = NonNullable<Hunt['next']>;
/** The same check as data. */
export type ProposedCheck = NonNullable<Hunt['view']['next']>;
export type Check = ProposedCheck['check'];
export type HuntEntry = Hunt['entries'][number];
export type Suspect = Hunt['view']['suspects'][number];
export type Verdict = NonNullable<Hunt['view']['verdict']>;
export type Symptom = NonNullable<Hunt['symptom']>;
export type SymptomOf<K extends Symptom['kind']> = Extract<Symptom, { kind: K }>;
export type StartHunt = operations['startHunt']['requestBody']['content']['application/json'];
export type Instruments = NonNullable<StartHunt['instruments']>;
export type CheckAnswer = operations['answerCheck']['requestBody']['content']['application/json']['answer'];
