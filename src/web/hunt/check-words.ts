// A check in few words: what to do, what to set first, what a healthy vehicle shows, and what can be answered.
// It must not leave out anything that the check says must be done before.

import type { HuntCard, ProposedCheck } from '../api/types.js';
import type { RecordIndex } from '../state/record-index.js';
import { bandText, figureText } from '../words/figures.js';

/** Where the two leads are drawn below, the heading need not repeat them. */
export function checkHeading(card: HuntCard, check: ProposedCheck | null): string {
  if (check === null) return card.title;
  switch (check.check.kind) {
    case 'volts':
      if (check.check.newFuse !== undefined)
        return `Fit a new fuse of the recorded rating in ${check.check.newFuse}, once, and measure volts: does it hold?`;
      return check.check.isBackProbed === true
        ? 'Measure volts at the rear of the plug, with the load on'
        : 'Measure volts, with the load on';
    case 'ohms':
      return 'Measure ohms, with the battery off and the plugs at both ends pulled';
    case 'isolation':
      return 'Measure ohms to the body, with the battery off and the plugs at both ends pulled';
    default:
      return card.title
        .replace(/^Look: does (.*) work\?$/, 'Does $1 work?')
        .replace(/^Look: is (.*) off, as it should be\?$/, 'Is $1 off, as it should be?');
  }
}

export interface SetUp {
  /** `Set the vehicle to Dip`. */
  readonly words: string;
  /** What that means at the switches, or what comes off. */
  readonly more: string;
}

export function setUpOf(index: RecordIndex, card: HuntCard, check: ProposedCheck | null): readonly SetUp[] {
  if (check === null) return card.setUp.map((words) => ({ words, more: '' }));
  const isStaying = check.check.kind === 'volts' && check.check.isBackProbed === true;
  return [
    ...(check.state === null ? [] : [{ words: `Set to ${check.state}`, more: stateMeaning(index, check) }]),
    ...check.why.panels.map((panel) => ({ words: `Take off: ${panel}`, more: '' })),
    ...(isStaying
      ? [{ words: 'Leave the plug together', more: 'the tip goes in beside the wire, from the rear' }]
      : []),
  ];
}

/** What the state names: `Ignition switch run, Lighting switch head; engine running; X17 unplugged`. */
function stateMeaning(index: RecordIndex, { stateChoice }: ProposedCheck): string {
  const state =
    typeof stateChoice === 'string' ? index.record.states?.find(({ name }) => name === stateChoice) : stateChoice;
  if (state === null || state === undefined) return '';
  const positions = index.choices.positions.flatMap(({ part, name }) => {
    const position = state.positions?.[part];
    return position === undefined ? [] : [`${name ?? part} ${position}`];
  });
  const engine = state.engine === 'running' ? ['engine running'] : [];
  const unplugged = (state.unplugged ?? []).map((plug) => `${plug} unplugged`);
  const detached = (state.detached ?? []).map((end) => `${end} taken off`);
  return [...positions, ...engine, ...unplugged, ...detached].join(', ');
}

export interface HealthyWords {
  readonly figure: string;
  readonly band: string | null;
}

export function healthyOf(card: HuntCard, check: ProposedCheck | null): HealthyWords {
  if (check === null || check.healthy.nominal === null) return { figure: card.healthy, band: null };
  const { nominal, low, high } = check.healthy;
  const unit = check.unit ?? 'V';
  return { figure: figureText(nominal, unit), band: bandText({ low, high }, unit) };
}

const answerWords: ReadonlyMap<string, string> = new Map([
  ['observe works', 'It works'],
  ['observe weak', 'Weak or slow'],
  ['observe dead', 'Dead'],
  ['observe reversed', 'Runs the wrong way'],
  ['link works', 'Now it works'],
  ['link weak', 'Weak or slow'],
  ['link dead', 'Still dead'],
  ['swap cured', 'That cures it'],
  ['swap same', 'No change'],
  ['inspect clean', 'Clean, sits right'],
  ['inspect damaged', 'Something is wrong there'],
  ['look good', 'The fuse is good'],
  ['look blown', 'Blown'],
  ['look missing', 'There is none'],
  ['look wrong-rating', 'Blown, and too small a rating'],
  ['wiggle changes', 'It changes with it'],
  ['wiggle steady', 'It stays steady'],
  ['lamp bright', 'Bright'],
  ['lamp dim', 'Dim'],
  ['lamp dark', 'Dark'],
]);

/** Of something that should be off. */
const restingWords: ReadonlyMap<string, string> = new Map([
  ['works', 'It is on'],
  ['weak', 'It glows, or runs a little'],
  ['dead', 'It is off'],
]);

export interface WordAnswers {
  /** What is to be reckoned with. */
  readonly likely: readonly { readonly id: string; readonly words: string }[];
  readonly others: readonly { readonly id: string; readonly words: string }[];
}

export function wordAnswersOf(card: HuntCard, check: ProposedCheck | null): WordAnswers {
  const kind = check?.check.kind ?? 'observe';
  const resting = kind === 'observe' && check?.healthy.word === 'dead' ? restingWords : null;
  const said = card.words.map(({ id, words }) => ({
    id,
    words: resting?.get(id) ?? answerWords.get(`${kind} ${id}`) ?? words,
  }));
  const foreseen = new Set(check?.outcomes.map(({ name }) => name) ?? []);
  const likely = said.filter(({ id }) => foreseen.size === 0 || foreseen.has(id));
  return likely.length < 2
    ? { likely: said, others: [] }
    : { likely, others: said.filter(({ id }) => !likely.some((it) => it.id === id)) };
}
