// Sheets for paper: pin charts, wire labels, test sheets. Shown as they print; the browser makes the paper or the PDF.
// It must not show anything that is not on the sheet, save the button that prints it.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import type { Problem } from '../api/http.js';
import type { Revision } from '../api/types.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { planById } from '../prove/plan-words.js';
import { askPlan, getRun } from '../prove/proof-api.js';
import { harness, index } from '../state/harness.js';
import { useAnswer } from '../state/use-answer.js';
import { HatchTiles } from './colour-mark.js';
import { PinChartsSheet } from './pin-charts-sheet.js';
import { PlanSheet } from './plan-sheet.js';
import { WireLabelsSheet } from './wire-labels-sheet.js';
import '../styles/paper.css';

export function PrintPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  if (open === null || record === null) return null;
  return (
    <PageFrame
      title={`${open.record.name}, ${target}, revision ${open.revision}`}
      heading="Sheets to print"
      width="wide"
    >
      <div class="no-print print-bar">
        <button type="button" class="button button-main button-tall" onClick={() => print()}>
          Print, or save as PDF
        </button>
        <a class="button button-tall" href={to.page(open.harness, 'plans')}>
          Back to proving
        </a>
      </div>
      <HatchTiles />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: sheets keep their width; a keyboard must be able to scroll them */}
      <section class="papers" aria-label="Sheets" tabIndex={0}>
        {target === 'pin-charts' && <PinChartsSheet revision={open} index={record} />}
        {target === 'labels' && <WireLabelsSheet revision={open} index={record} />}
        {target.startsWith('run-') && <RunSheet revision={open} run={target.slice('run-'.length)} />}
        {planById(target) !== null && <BlankSheet revision={open} id={target} />}
      </section>
    </PageFrame>
  );
}

function BlankSheet({ revision, id }: { revision: Revision; id: string }): JSX.Element {
  const choice = planById(id)?.choice;
  const answer = useAnswer(choice === undefined ? null : `${revision.harness}@${revision.revision} ${id}`, (signal) =>
    askPlan(revision.harness, choice ?? { kind: 'continuity' }, { signal }),
  );
  return (
    <>
      <Waiting isSlow={answer.isSlow} problem={answer.problem} onAgain={answer.again} />
      {answer.value !== null && <PlanSheet revision={revision} plan={answer.value} />}
    </>
  );
}

function RunSheet({ revision, run }: { revision: Revision; run: string }): JSX.Element {
  const answer = useAnswer(`${revision.harness} ${run}`, (signal) => getRun(revision.harness, run, { signal }));
  const found = answer.value;
  return (
    <>
      <Waiting isSlow={answer.isSlow} problem={answer.problem} onAgain={answer.again} />
      {found?.recordHasChanged === true && (
        <p class="box box-warn no-print">
          The record has been changed since: this sheet is of revision {found.revision}.
        </p>
      )}
      {found !== null && (
        <PlanSheet
          revision={{ ...revision, revision: found.revision, savedAt: found.startedAt }}
          plan={found.plan}
          run={found}
        />
      )}
    </>
  );
}

interface WaitingProps {
  readonly isSlow: boolean;
  readonly problem: Problem | null;
  readonly onAgain: () => void;
}

const Waiting = ({ isSlow, problem, onAgain }: WaitingProps): JSX.Element => (
  <>
    <Progress isShown={isSlow} words="Making the plan" />
    {problem !== null && <ProblemBox problem={problem} onAgain={onAgain} />}
  </>
);
