// Turns a catalogue error into a problem document (RFC 9457), with what it echoes cut to a bearable size.
// It must not decide what is an error; the catalogue does.

import { type Issue, type ProblemCode, problemKinds, type ServiceError } from './errors.js';

/** At most so many issues and differences are spelled out; `issueCount` and `differenceCount` tell how many there are. */
export const issuesShown = 500;
const echoedCharacters = 200;

/** A problem document as it is sent. */
export interface ProblemDocument {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly instance: string;
  readonly code: ProblemCode;
  readonly hint: string;
  readonly issueCount?: number;
  readonly issues?: readonly Issue[];
  readonly currentRevision?: number;
  readonly differenceCount?: number;
  readonly differences?: readonly unknown[];
}

/** The URI that names a kind of problem. */
export const problemType = (code: ProblemCode): string => `urn:lastgood:problem:${code}`;

/** The document for `error`; `instance` is the path of the request, without its query. */
export function problemDocument(error: ServiceError, instance: string): ProblemDocument {
  const { status, title, hint } = problemKinds[error.code];
  const { issues, currentRevision, differences } = error.extras;
  return {
    type: problemType(error.code),
    title,
    status,
    detail: error.message,
    instance: shortened(instance),
    code: error.code,
    hint,
    ...(issues === undefined
      ? {}
      : { issueCount: issues.length, issues: issues.slice(0, issuesShown).map((issue) => echoable(issue)) }),
    ...(currentRevision === undefined ? {} : { currentRevision }),
    ...(differences === undefined
      ? {}
      : { differenceCount: differences.length, differences: differences.slice(0, issuesShown) }),
  };
}

function echoable(issue: Issue): Issue {
  return { ...issue, path: shortened(issue.path), value: echo(issue.value) };
}

/** Values that are not plain and short are described instead of repeated. */
function echo(value: unknown): unknown {
  if (value === undefined || value === null || typeof value === 'boolean') return value ?? null;
  if (typeof value === 'number') return Number.isFinite(value) ? value : String(value);
  if (typeof value === 'string') return shortened(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return 'an object';
}

const shortened = (text: string): string =>
  text.length <= echoedCharacters ? text : `${text.slice(0, echoedCharacters)}...`;
