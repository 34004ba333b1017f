// Which findings a change of the record added, and which it settled.
// It must not compare wording: code and addresses make a finding the same.

interface Named {
  readonly code: string;
  readonly at: readonly string[];
}

const keyOf = ({ code, at }: Named): string => `${code} ${[...at].sort().join(' ')}`;

export function changeOfFindings<F extends Named>(
  before: readonly F[],
  now: readonly F[],
): { readonly added: readonly F[]; readonly gone: readonly F[] } {
  const [old, fresh] = [new Set(before.map(keyOf)), new Set(now.map(keyOf))];
  return {
    added: now.filter((finding) => !old.has(keyOf(finding))),
    gone: before.filter((finding) => !fresh.has(keyOf(finding))),
  };
}
