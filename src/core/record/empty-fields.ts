// Leaves out optional lists and objects that hold nothing, so that one record has one spelling.
// It must not touch lists that a record must have.

/** Fields whose empty list or object says no more than its absence. */
const OPTIONAL: ReadonlySet<string> = new Set([
  'marks',
  'bridges',
  'spare',
  'plug',
  'receptacle',
  'limitContacts',
  'runsIn',
  'outputs',
  'inputs',
  'sensorSupplies',
  'route',
  'hazards',
  'segments',
  'assemblies',
  'doubleCrimps',
  'states',
  'acceptedFindings',
  'positions',
  'commands',
  'unplugged',
  'detached',
  'restored',
  'links',
  'attached',
  'measured',
  'celsius',
  'travel',
]);

/** Maps from an address: whatever their keys are called, each entry stays. */
const MAPS: ReadonlySet<string> = new Set(['attached']);

/** Takes empty optional lists and objects out of a value, at any depth, and returns the value. */
export function dropEmptyFields<T>(value: T): T {
  drop(value);
  return value;
}

function drop(value: unknown): void {
  if (typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    value.forEach(drop);
    return;
  }
  for (const [key, entry] of Object.entries(value)) {
    if (typeof entry !== 'object' || entry === null) continue;
    if (!MAPS.has(key)) drop(entry);
    if (OPTIONAL.has(key) && Object.keys(entry).length === 0) delete (value as Record<string, unknown>)[key];
  }
}
