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
  'links',
  'attached',
  'measured',
  'celsius',
  'travel',
]);

/** A copy without empty optional lists and objects, at any depth. */
export function dropEmptyFields<T>(value: T): T {
  return drop(value) as T;
}

function drop(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(drop);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .map(([key, entry]) => [key, MAPS.has(key) ? entry : drop(entry)] as const)
      .filter(([key, entry]) => !(OPTIONAL.has(key) && isEmpty(entry))),
  );
}

/** Maps from an address: whatever their keys are called, each entry stays. */
const MAPS: ReadonlySet<string> = new Set(['attached']);

function isEmpty(value: unknown): boolean {
  return typeof value === 'object' && value !== null && Object.keys(value).length === 0;
}
