// One finding: how bad, where, the numbers against their limit, the remedy; and the reason for which it was, or may be, accepted.
// It must not tell its severity by colour alone.

import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';
import { Tag } from '../parts/tag.js';
import type { Finding } from './proof-api.js';

interface FindingCardProps {
  readonly finding: Finding;
  readonly isSaving: boolean;
  readonly onAccept?: (reason: string) => void;
  readonly onWithdraw?: () => void;
}

const severities: Readonly<Record<Finding['severity'], { readonly words: string; readonly box: string }>> = {
  danger: { words: 'Danger: can burn or hurt', box: 'box-bad' },
  fault: { words: 'Fault: will not work, or will fail', box: 'box-bad' },
  warning: { words: 'Warning: outside good practice', box: 'box-warn' },
  note: { words: 'Note', box: '' },
};

export function FindingCard({ finding, isSaving, onAccept, onWithdraw }: FindingCardProps): JSX.Element {
  const { words, box } = severities[finding.severity];
  const id = useId();
  return (
    <article class={`box ${onWithdraw === undefined ? box : ''}`} aria-labelledby={id}>
      <p class="finding-severity">{words}</p>
      <h3 id={id}>{finding.text}</h3>
      <p class="tags">
        {finding.points.slice(0, 12).map((point) => (
          <Tag key={point} address={point} />
        ))}
        {finding.points.length > 12 && <span>and {finding.points.length - 12} more points</span>}
      </p>
      {finding.numbers.length > 0 && (
        <ul class="finding-numbers">
          {finding.numbers.map(({ what, value, unit }) => (
            <li key={what}>
              {what}: <strong>{figure(value)}</strong> {unit}
            </li>
          ))}
        </ul>
      )}
      {finding.limit !== null && (
        <p class="soft">
          Limit {figure(finding.limit.value)} {finding.limit.unit}: {finding.limit.source}
        </p>
      )}
      {finding.state !== null && <p class="soft">Worst in: {finding.state}</p>}
      <p>{finding.remedy}</p>
      {finding.acceptedBecause !== null && (
        <p>
          <strong>Accepted because:</strong> {finding.acceptedBecause}
        </p>
      )}
      {onAccept !== undefined && <AcceptForm describedBy={id} isSaving={isSaving} onAccept={onAccept} />}
      {onWithdraw !== undefined && (
        <button type="button" class="button button-tall" disabled={isSaving} onClick={onWithdraw}>
          Let it stand again
        </button>
      )}
    </article>
  );
}

interface AcceptFormProps {
  /** Id of the finding's own words. */
  readonly describedBy: string;
  readonly isSaving: boolean;
  readonly onAccept: (reason: string) => void;
}

function AcceptForm({ describedBy, isSaving, onAccept }: AcceptFormProps): JSX.Element {
  const [isOpen, setOpen] = useState(false);
  const [reason, setReason] = useState('');
  const id = useId();
  if (!isOpen) {
    return (
      <button type="button" class="button button-tall" aria-describedby={describedBy} onClick={() => setOpen(true)}>
        Accept it, with a reason
      </button>
    );
  }
  return (
    <form
      class="field"
      onSubmit={(event) => {
        event.preventDefault();
        if (reason.trim().length >= 3) onAccept(reason.trim());
      }}
    >
      <label for={id}>Why may it stay? Kept in the record.</label>
      <textarea
        id={id}
        rows={2}
        maxLength={200}
        value={reason}
        ref={(field) => field?.focus()}
        onInput={(event) => setReason(event.currentTarget.value)}
      />
      <button type="submit" class="button button-main button-tall" disabled={isSaving || reason.trim().length < 3}>
        Accept by name
      </button>
    </form>
  );
}

const figure = (value: number): string => String(Number(value.toPrecision(3)));
