// A refusal in the server's own words: what, where, what is accepted, what can be done.
// It must not hide any issue that was listed.

import type { JSX } from 'preact';
import type { Problem } from '../api/http.js';
import type { Issue } from '../api/types.js';
import { TokenForm } from './token-form.js';

export function ProblemBox({ problem, onAgain }: { problem: Problem; onAgain?: () => void }): JSX.Element {
  return (
    <div class="box box-bad" role="alert">
      <h2>{problem.title}</h2>
      <p>{problem.detail}</p>
      {problem.hint !== '' && <p class="soft">{problem.hint}</p>}
      {problem.issues.length > 0 && <IssueList issues={problem.issues} count={problem.issueCount} />}
      {problem.code === 'token-required' && <TokenForm />}
      {onAgain !== undefined && (
        <button type="button" class="button" onClick={onAgain}>
          Ask again
        </button>
      )}
    </div>
  );
}

export function IssueList({ issues, count }: { issues: readonly Issue[]; count: number }): JSX.Element {
  return (
    <>
      {count > issues.length && (
        <p>
          {count} in all, the first {issues.length} are listed.
        </p>
      )}
      <ul class="issues">
        {issues.map((issue) => (
          <li key={`${issue.path} ${issue.code}`}>
            <strong>{issue.part ?? issue.path}</strong>
            {issue.part !== undefined && <span class="soft"> {issue.path}</span>}
            <br />
            {isWorthRepeating(issue) && <q>{String(issue.value)}</q>} {issue.reason}.{' '}
            {issue.accepted !== '' && <span class="soft">Accepted: {issue.accepted}.</span>}
          </li>
        ))}
      </ul>
    </>
  );
}

/** Many reasons quote the value themselves. */
const isWorthRepeating = ({ value, reason }: Issue): boolean =>
  value !== undefined && value !== null && !reason.includes(String(value));
