// What the service needs of time and chance, handed in so that tests can hold both still.
// It must not read the machine's clock itself.

/** Now, as an ISO 8601 instant in UTC with milliseconds. */
export type Clock = () => string;

/** A new identifier that was never given out before: lower-case letters and digits, usable in a URL. */
export type IdSource = () => string;

/** Milliseconds of a clock that only runs forward; for deadlines. */
export type Stopwatch = () => number;
