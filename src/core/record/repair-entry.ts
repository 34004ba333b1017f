// Makes of a refused part or wire one that the other checks can still look at, so that one problem does not hide the next.
// It must not reach a stored record: the entry's own problem is told already, so the document is refused.

/** Fields that decide which terminals a part has: without them nothing can be said of its wires. */
const SHAPING: ReadonlySet<string> = new Set([
  'kind',
  'address',
  'label',
  'name',
  'contacts',
  'positions',
  'style',
  'functions',
  'limitContacts',
  'caseOn',
  'cavities',
  'terminals',
  'supplies',
  'grounds',
  'outputs',
  'inputs',
  'sensorSupplies',
  'isolated',
  'from',
  'to',
]);

/** Values that stand in for required fields. */
const STAND_INS: ReadonlyMap<string, unknown> = new Map<string, unknown>([
  ['size', '1 mm²'],
  ['ratingAmps', 1],
  ['resistanceOhms', 1],
  ['outputVolts', 1],
]);

/** The entry without the refused fields; null when one of them shapes the part. `refused` are names of its own fields. */
export function repairEntry(value: unknown, refused: readonly string[]): Record<string, unknown> | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
  if (refused.some((field) => SHAPING.has(field))) return null;
  const repaired: Record<string, unknown> = { ...value };
  for (const field of refused) {
    const standIn = STAND_INS.get(field);
    if (standIn === undefined) delete repaired[field];
    else repaired[field] = standIn;
  }
  return repaired;
}
