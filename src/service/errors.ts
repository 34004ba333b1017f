// The one catalogue of errors that the service tells a caller: code, HTTP status, title, sentence, hint.
// It must not know HTTP frameworks; a code once published is never used for anything else (see `retiredCodes`).

import type { RecordIssue } from '../core/record/record-issue.js';

interface ProblemKind<P> {
  readonly status: number;
  readonly title: string;
  readonly detail: (params: P) => string;
  /** What the caller can do about it. */
  readonly hint: string;
}

const kind = <P = Record<never, never>>(
  status: number,
  title: string,
  detail: (params: P) => string,
  hint: string,
): ProblemKind<P> => ({ status, title, detail, hint });

export const problemKinds = {
  // What arrived cannot be read.
  'malformed-json': kind<{ reason: string }>(
    400,
    'The body is not JSON',
    ({ reason }) => `The body could not be read as JSON: ${reason}.`,
    'Send one JSON document in UTF-8 with the content type application/json.',
  ),
  'body-too-deep': kind<{ limit: number }>(
    400,
    'The body is nested too deeply',
    ({ limit }) => `The body nests lists or objects more than ${limit} levels deep.`,
    'No request of this API needs more than a dozen levels.',
  ),
  'forbidden-key': kind<{ key: string; path: string }>(
    400,
    'The body holds a forbidden key',
    ({ key, path }) => `The key ${key} at ${path} is not accepted in any document.`,
    'Rename the key.',
  ),
  'request-invalid': kind<{ count: number }>(
    400,
    'The request does not have the shape of this operation',
    ({ count }) => `${count === 1 ? 'One field is' : `${count} fields are`} missing, unknown or of the wrong type.`,
    'Each entry of `issues` names the field, the value and what is accepted.',
  ),
  'header-invalid': kind<{ header: string; value: string; accepted: string }>(
    400,
    'A header cannot be read',
    ({ header, value, accepted }) => `The header ${header} is ${value}; accepted is ${accepted}.`,
    'Send the ETag exactly as the last answer gave it.',
  ),
  'http-malformed': kind<{ reason: string }>(
    400,
    'The request is not HTTP',
    ({ reason }) => `The request could not be read: ${reason}.`,
    'Check the client or the proxy in between.',
  ),

  // Who may ask.
  'token-required': kind(
    401,
    'A token is needed',
    () => 'This server was started with a token, and the request carried none or a wrong one.',
    'Send the header Authorization: Bearer followed by the token that the server was started with.',
  ),
  'host-refused': kind<{ host: string }>(
    403,
    'The Host header is not one of this server',
    ({ host }) => `The request names the host ${host}, which this server does not answer for.`,
    'Use the address that the server printed, or add the name to LASTGOOD_ALLOWED_HOSTS.',
  ),
  'origin-refused': kind<{ origin: string }>(
    403,
    'The request came from another site',
    ({ origin }) => `A page of ${origin} may not change anything here.`,
    'Use the page that this server serves itself.',
  ),

  // What is not there.
  'route-not-found': kind<{ method: string; path: string }>(
    404,
    'No such address',
    ({ method, path }) => `Nothing answers ${method} ${path}.`,
    'The operations are described in openapi/openapi.json.',
  ),
  'method-not-allowed': kind<{ method: string; path: string; allowed: string }>(
    405,
    'This address does not take the method',
    ({ method, path, allowed }) => `${path} does not take ${method}; it takes ${allowed}.`,
    'Use one of the methods in the Allow header.',
  ),
  'harness-not-found': kind<{ harness: string }>(
    404,
    'No such harness',
    ({ harness }) => `There is no harness ${harness}.`,
    'GET /api/v1/harnesses lists those that there are.',
  ),
  'revision-not-found': kind<{ harness: string; revision: number }>(
    404,
    'No such revision',
    ({ harness, revision }) => `The harness ${harness} has no revision ${revision}.`,
    'GET /api/v1/harnesses/{harness}/revisions lists those that there are.',
  ),
  'hunt-not-found': kind<{ hunt: string }>(
    404,
    'No such hunt',
    ({ hunt }) => `There is no hunt ${hunt} on this harness.`,
    'GET /api/v1/harnesses/{harness}/hunts lists those that there are.',
  ),
  'run-not-found': kind<{ run: string }>(
    404,
    'No such run',
    ({ run }) => `There is no run ${run} of a plan on this harness.`,
    'GET /api/v1/harnesses/{harness}/runs lists those that there are.',
  ),
  'finding-not-found': kind<{ finding: string }>(
    404,
    'No such finding',
    ({ finding }) => `There is no finding ${finding} to accept or to withdraw; nothing was stored.`,
    'GET /api/v1/harnesses/{harness}/findings lists those that stand and those that are accepted; name all addresses of one.',
  ),
  'sheet-not-found': kind<{ sheet: string; sheets: string }>(
    404,
    'No such sheet',
    ({ sheet, sheets }) => `The harness has no sheet ${sheet}; it has ${sheets}.`,
    'Use one of the sheets named.',
  ),

  // Two at once.
  'precondition-required': kind(
    428,
    'The change must say which revision it starts from',
    () => 'The header If-Match is missing.',
    'Read the harness, then send its ETag as If-Match, so that nobody’s change is lost.',
  ),
  'revision-stale': kind<{ harness: string; expected: number; current: number }>(
    412,
    'Somebody changed the harness in the meantime',
    ({ harness, expected, current }) =>
      `The change starts from revision ${expected} of ${harness}, which now stands at revision ${current}.`,
    '`differences` says what changed since; apply your change to the current revision and send it again.',
  ),
  'priors-stale': kind<{ harness: string; expected: number; current: number }>(
    412,
    'Somebody changed the priors in the meantime',
    ({ harness, expected, current }) =>
      `The change starts from version ${expected} of the priors of ${harness}, which now stand at version ${current}.`,
    'GET /api/v1/harnesses/{harness}/priors gives them as they are; apply your change to those and send it again.',
  ),
  'plan-refused': kind<{ count: number }>(
    409,
    'The plan is refused until findings are cleared or accepted',
    ({ count }) =>
      `${count === 1 ? 'One finding' : `${count} findings`} of the highest severity ${count === 1 ? 'stands' : 'stand'}: nothing may be powered up before.`,
    'Each entry of `issues` names a finding and its remedy. Clear it, or accept it by name with a reason: POST /api/v1/harnesses/{harness}/findings/accept.',
  ),
  'plan-outdated': kind<{ planRevision: number; current: number }>(
    409,
    'The plan was made from an older revision',
    ({ planRevision, current }) =>
      `The plan is of revision ${planRevision}, the harness now stands at revision ${current}. The reading was not stored; all that were kept before stay.`,
    'Start a new run on the current revision; or, if the reading was taken on the harness as it was then, send it with forOlderRevision: true.',
  ),
  'harness-exists': kind<{ harnesses: string }>(
    409,
    'The backup holds harnesses that are already here',
    ({ harnesses }) => `Already here: ${harnesses}.`,
    'Restore into an empty store, or ask for replace=true to put the backup in place of everything here.',
  ),

  // What arrived can be read but is not right.
  'body-too-large': kind<{ limitBytes: number }>(
    413,
    'The body is too large',
    ({ limitBytes }) => `The body is larger than ${limitBytes} bytes.`,
    'A record of 20,000 wires fits; split what is larger, or raise LASTGOOD_BODY_LIMIT_MB.',
  ),
  'uri-too-long': kind<{ limit: number }>(
    414,
    'The address is too long',
    ({ limit }) => `A part of the address is longer than ${limit} characters.`,
    'Shorten it.',
  ),
  'media-type-unsupported': kind<{ received: string; accepted: string }>(
    415,
    'The content type is not taken here',
    ({ received, accepted }) => `The body is ${received}; this operation takes ${accepted}.`,
    'Set the content type of the body.',
  ),
  'record-invalid': kind<{ count: number }>(
    422,
    'The record has problems',
    ({ count }) => `${count === 1 ? 'One problem' : `${count} problems`} in the record; nothing was stored.`,
    'Each entry of `issues` names the place, the value, why it is refused and what is accepted.',
  ),
  'import-invalid': kind<{ count: number }>(
    422,
    'The sheets have problems',
    ({ count }) => `${count === 1 ? 'One problem' : `${count} problems`} in the sheets; nothing was stored.`,
    'Each entry of `issues` names sheet, row, column, value, why it is refused and what is accepted.',
  ),
  'edit-invalid': kind<{ count: number }>(
    422,
    'An edit does not fit the record',
    ({ count }) => `${count === 1 ? 'One edit does' : `${count} edits do`} not fit; nothing was stored.`,
    'Each entry of `issues` names the edit and what is accepted.',
  ),
  'hunt-entry-invalid': kind<{ count: number }>(
    422,
    'The entry does not fit the hunt',
    ({ count }) => `${count === 1 ? 'One thing' : `${count} things`} in the entry cannot be taken; nothing was added.`,
    'Send the id of the check as the hunt gave it, and a number or one of its words.',
  ),
  'question-invalid': kind<{ count: number }>(
    422,
    'The question does not fit the harness',
    ({ count }) => `${count === 1 ? 'One thing' : `${count} things`} in the question cannot be found or set here.`,
    'GET /api/v1/harnesses/{harness}/choices lists functions, plugs, positions and states.',
  ),
  'proof-too-large': kind<{ wires: number; limit: number }>(
    422,
    'The harness is too large to be proved at once',
    ({ wires, limit }) => `The harness has ${wires} wires; findings, plans and sneak search take up to ${limit}.`,
    'Record the vehicle unit by unit, joined at the plugs between them.',
  ),
  'reading-invalid': kind<{ count: number }>(
    422,
    'The reading does not fit the plan',
    ({ count }) =>
      `${count === 1 ? 'One thing' : `${count} things`} in the reading cannot be taken; nothing was stored, and what was kept before stays.`,
    'Send the id of a step of the run’s plan, and a value in the unit that the step is read in.',
  ),
  'backup-invalid': kind<{ line: number; reason: string }>(
    422,
    'The backup cannot be restored',
    ({ line, reason }) => `Line ${line} of the backup: ${reason}. Nothing was restored.`,
    'Use the file as the backup wrote it; a changed or cut file does not pass its checksum.',
  ),

  // The server's side.
  'headers-too-large': kind(
    431,
    'The headers are too large',
    () => 'The headers of the request are larger than the server reads.',
    'Send fewer or shorter headers.',
  ),
  'answer-too-slow': kind<{ deadlineMs: number }>(
    503,
    'The answer took too long',
    ({ deadlineMs }) => `The answer was not ready within ${deadlineMs} ms and was stopped.`,
    'Ask for less at once, or raise LASTGOOD_DEADLINE_MS.',
  ),
  'store-unavailable': kind<{ reason: string }>(
    503,
    'The store cannot be used',
    ({ reason }) => `The store refused: ${reason}. Nothing was stored.`,
    'Make room on the disk or the folder writable; reading goes on meanwhile.',
  ),
  'response-mismatch': kind(
    500,
    'The answer does not have its published shape',
    () => 'The server made an answer that its own description does not allow, and did not send it.',
    'This is a defect; report it with the request.',
  ),
  internal: kind(
    500,
    'Something went wrong in the server',
    () => 'The server met an error that it did not expect. Nothing was stored by this request.',
    'This is a defect; report it with the request and the request id.',
  ),
} as const;

export type ProblemCode = keyof typeof problemKinds;
export type ProblemParams<C extends ProblemCode> = Parameters<(typeof problemKinds)[C]['detail']>[0];

/** Codes that were published once and must not come back with another meaning. */
export const retiredCodes: readonly string[] = [];

/** One thing wrong in a document or question, as data. `path` is a JSON pointer or `wires.csv row 7 column length`. */
export type Issue = RecordIssue;

/** Members that a problem carries besides its sentence. */
export interface ProblemExtras {
  readonly issues?: readonly Issue[];
  readonly differences?: readonly unknown[];
  readonly currentRevision?: number;
  readonly allow?: string;
}

/** An expected refusal: thrown by use cases and stores, turned into a problem document at the border. */
export class ServiceError extends Error {
  override readonly name = 'ServiceError';

  constructor(
    readonly code: ProblemCode,
    detail: string,
    readonly extras: ProblemExtras = {},
    cause?: unknown,
  ) {
    super(detail, { cause });
  }

  get status(): number {
    return problemKinds[this.code].status;
  }
}

/** Makes the error of a catalogue entry: `throw refusal('harness-not-found', { harness: id })`. */
export function refusal<C extends ProblemCode>(
  code: C,
  params: ProblemParams<C>,
  extras: ProblemExtras = {},
  cause?: unknown,
): ServiceError {
  const detail = problemKinds[code].detail as (params: ProblemParams<C>) => string;
  return new ServiceError(code, detail(params), extras, cause);
}
