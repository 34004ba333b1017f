// A test sheet: what to prepare, cautions, then every step with room for the reading, or with the reading of a run.
// It must not print a step without its limit, nor the steps before the cautions.

import { type ComponentChildren, Fragment, type JSX } from 'preact';
import type { Revision } from '../api/types.js';
import {
  byCircuit,
  expectedFigure,
  inGroups,
  leadWords,
  limitWords,
  planName,
  readingFigure,
  settingWords,
} from '../prove/plan-words.js';
import type { KeptReading, Plan, PlanStep, Run } from '../prove/proof-api.js';
import { index } from '../state/harness.js';
import { partOfPoint } from '../words/addresses.js';
import { momentText } from '../words/days.js';
import { RunningHead } from './running-head.js';

interface PlanSheetProps {
  readonly revision: Revision;
  readonly plan: Plan;
  /** Its readings are printed; without a run there is room to write. */
  readonly run?: Run;
}

export function PlanSheet({ revision, plan, run }: PlanSheetProps): JSX.Element {
  const readings = new Map(run?.readings.map((reading) => [reading.step, reading]));
  const numbers = new Map(plan.steps.map(({ id }, at) => [id, at + 1]));
  const title = `Test sheet: ${planName(plan)}`;
  // A circuit under load is proved on a sheet of its own; bare nets and stages follow each other as the hands move.
  const isApart = plan.kind === 'voltage-drop';
  const isBare = plan.kind === 'continuity' || plan.kind === 'isolation';
  const groups = isBare ? [{ name: '', steps: plan.steps }] : isApart ? byCircuit(plan.steps) : inGroups(plan.steps);
  const sheets = isApart ? groups.map((group) => [group]) : [groups];
  const columns = plan.kit === 'two-tie-bars' ? 'col-bar' : 'col-lead';
  const bars = plan.kit === 'two-tie-bars' ? Number.POSITIVE_INFINITY : 6;
  return (
    <>
      <article class="paper">
        <RunningHead revision={revision} title={title} sheet={`1 of ${sheets.length + 1}`} />
        {run !== undefined && (
          <p>
            Measured by <strong>{run.who}</strong>, begun {momentText(run.startedAt)}: {run.counts.read} of{' '}
            {run.counts.steps} steps read, {run.counts.failed} outside the limit.
          </p>
        )}
        {run === undefined && (
          <p class="sign-line">
            Measured by ____________________ Date ______________ Meter ______________ Leads ________ Ω
          </p>
        )}
        <section class="paper-cautions">
          <h2>Before you touch it</h2>
          <ul>
            {plan.cautions.map(({ code, text }) => (
              <li key={code}>{text}</li>
            ))}
          </ul>
        </section>
        {plan.first.length > 0 && (
          <section class="paper-cautions">
            <h2>Findings of the highest severity stand: read these first</h2>
            <ul>
              {plan.first.map(({ code, at, text, remedy }) => (
                <li key={`${code} ${at.join()}`}>
                  {text} {remedy}
                </li>
              ))}
            </ul>
          </section>
        )}
        <Ticks title="Prepare, in this order" lines={plan.prepare} />
        <Ticks title="Out of the way" lines={plan.remove.map(({ text }) => text)} isDense />
        {plan.stopIf.length > 0 && <Lines title="Stop at once if" lines={plan.stopIf} />}
        {plan.onFailure.length > 0 && <Lines title="When a step fails" lines={plan.onFailure} />}
        {plan.leftOut.length > 0 && <Lines title="Not tested by this plan" lines={plan.leftOut} />}
        <p class="paper-soft">
          {plan.steps.length} readings
          {plan.counts.handMoves > 0 &&
            `, ${plan.counts.handMoves} hand moves when taken in the order of their numbers`}
          .
        </p>
      </article>
      {sheets.map((shown, at) => (
        <article key={`${shown[0]?.name} ${numbers.get(shown[0]?.steps[0]?.id ?? '')}`} class="paper">
          <table class="paper-table">
            <colgroup>
              <col class="col-number" />
              <col class={columns} />
              <col class={columns} />
              <col />
              <col class="col-limit" />
              <col class="col-read" />
            </colgroup>
            <thead>
              <tr>
                <td colSpan={6} class="paper-head">
                  <RunningHead
                    revision={revision}
                    title={isApart ? `${title}: ${shown[0]?.name}` : title}
                    sheet={`${at + 2} of ${sheets.length + 1}`}
                  />
                </td>
              </tr>
              <tr>
                <th scope="col">No.</th>
                <th scope="col">Red on</th>
                <th scope="col">Black on</th>
                <th scope="col">Healthy</th>
                <th scope="col">Passes</th>
                <th scope="col">{run === undefined ? 'Read, and ok' : 'Read'}</th>
              </tr>
            </thead>
            {shown.map((group) => (
              <tbody key={`${group.name} ${group.steps[0].id}`} class={isBare ? undefined : 'paper-group'}>
                {group.steps.map((step, position) => (
                  <Fragment key={step.id}>
                    <SettingLine
                      name={isApart || isBare || position > 0 ? null : group.name}
                      setting={settingWords(step)}
                      before={position === 0 ? '' : settingWords(group.steps[position - 1])}
                    />
                    <StepRow
                      step={step}
                      number={numbers.get(step.id) ?? 0}
                      net={isBare ? step.group : null}
                      reading={readings.get(step.id)}
                      isRun={run !== undefined}
                      mostPoints={bars}
                    />
                  </Fragment>
                ))}
              </tbody>
            ))}
          </table>
        </article>
      ))}
    </>
  );
}

interface SettingLineProps {
  readonly name: string | null;
  readonly setting: string;
  /** The setting of the row above. */
  readonly before: string;
}

/** The name of the stage, and what must be set, where that differs from the row above. */
function SettingLine({ name, setting, before }: SettingLineProps): JSX.Element | null {
  const isSet = setting !== '' && setting !== before;
  if (name === null && !isSet) return null;
  return (
    <tr>
      <th colSpan={6} scope="rowgroup" class="paper-set">
        {name !== null && <span>{name}</span>}
        {isSet && <span class="paper-setting">Set: {setting}</span>}
      </th>
    </tr>
  );
}

interface StepRowProps {
  readonly step: PlanStep;
  readonly number: number;
  readonly net: string | null;
  readonly reading: KeptReading | undefined;
  readonly isRun: boolean;
  readonly mostPoints: number;
}

function StepRow({ step, number, net, reading, isRun, mostPoints }: StepRowProps): JSX.Element {
  const figure = expectedFigure(step);
  return (
    <tr>
      <th scope="row">{number}</th>
      <td>
        <Points points={step.red} most={mostPoints} />
      </td>
      <td>{step.black.length === 0 ? meterWords(step) : <Points points={step.black} most={mostPoints} />}</td>
      <td>
        {figure !== null && <strong>{figure}</strong>}
        {step.expect !== figure && <span class="paper-soft"> {step.expect}</span>}
        {net !== null && <div class="paper-soft">{net}</div>}
      </td>
      <td>{limitWords(step)}</td>
      <td class="paper-read">{isRun ? <Read step={step} reading={reading} /> : <Write unit={step.unit} />}</td>
    </tr>
  );
}

/** One place with the name of its part; several as a list. */
function Points({ points, most }: { points: readonly string[]; most: number }): JSX.Element {
  const record = index.value;
  const part = points.length === 1 ? record?.parts.get(partOfPoint(points[0])) : undefined;
  return (
    <>
      <span class="paper-point">{leadWords(points, most)}</span>
      {part !== undefined && (
        <div class="paper-soft">{[part.name, part.location].filter((word) => word !== undefined).join(', ')}</div>
      )}
    </>
  );
}

function Read({ step, reading }: { step: PlanStep; reading: KeptReading | undefined }): JSX.Element {
  if (reading === undefined) return <>not read</>;
  return (
    <>
      <strong>{readingFigure(step, reading)}</strong>{' '}
      {reading.passes === null ? '' : reading.passes ? '✓ passes' : '✗ FAILS'}
      {reading.note !== null && <span class="paper-soft"> {reading.note}</span>}
    </>
  );
}

const Write = ({ unit }: { unit: PlanStep['unit'] }): JSX.Element => (
  <span class="paper-write">
    <span>{unit ?? ''}</span> <span class="paper-box">☐</span>
  </span>
);

const meterWords = ({ meter }: PlanStep): string =>
  meter === 'clamp' ? 'clamp round it' : meter === 'look' ? 'look' : '';

function Ticks({
  title,
  lines,
  isDense = false,
}: {
  title: string;
  lines: readonly string[];
  isDense?: boolean;
}): JSX.Element | null {
  if (lines.length === 0) return null;
  return (
    <Block title={title}>
      <ul class={`ticks${isDense ? ' ticks-dense' : ''}`}>
        {lines.map((line) => (
          <li key={line}>
            <span class="paper-box">☐</span> <span>{line}</span>
          </li>
        ))}
      </ul>
    </Block>
  );
}

const Lines = ({ title, lines }: { title: string; lines: readonly string[] }): JSX.Element => (
  <Block title={title}>
    <ul>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  </Block>
);

const Block = ({ title, children }: { title: string; children: ComponentChildren }): JSX.Element => (
  <section class="paper-block">
    <h2>{title}</h2>
    {children}
  </section>
);
