// The columns of every sheet, made from the schemas themselves, so that no field of the record is forgotten.
// It must not read or write cells.

import type { z } from 'zod';
import { bodySchema } from '../kinds/joining.js';
import { functionField, limitContactField } from '../kinds/loads.js';
import { groundPinField, inputPinField, outputPinField, sensorSupplyField, supplyPinField } from '../kinds/module.js';
import { positionField } from '../kinds/switching.js';
import { partSchema } from '../part.js';
import {
  acceptedFindingSchema,
  assemblySchema,
  doubleCrimpSchema,
  recordSchema,
  segmentSchema,
  wireSchema,
} from '../record.js';
import { linkField } from '../state.js';

/**
 * text: as it stands. number: with the unit in its name. flag: yes, no. names: words without blanks. texts: free texts.
 * count-or-names: how many, or which. sets: sets of terminals. temperatures: ohms by temperature.
 */
type ColumnType = 'text' | 'number' | 'flag' | 'names' | 'texts' | 'count-or-names' | 'sets' | 'temperatures';

export interface Column {
  /** Field in the entry, nested ones with a dot: `plug.contacts`. */
  readonly field: string;
  /** As written at the head of the column: `contact rating (A)`. */
  readonly header: string;
  readonly type: ColumnType;
}

export const SHEETS = [
  'record',
  'parts',
  'functions',
  'contacts',
  'modules',
  'cavities',
  'wires',
  'double-crimps',
  'routes',
  'assemblies',
  'states',
  'findings',
] as const;
export type SheetName = (typeof SHEETS)[number];

/** Unit words at the end of a field's name and how the header shows them. */
export const FIELD_UNITS: readonly (readonly [ending: string, unit: string])[] = [
  ['AmpHours', 'Ah'],
  ['Celsius', 'degC'],
  ['Metres', 'm'],
  ['Volts', 'V'],
  ['Watts', 'W'],
  ['Amps', 'A'],
  ['Ohms', 'ohm'],
];

/** Fields that stand in sheets of their own, or that a special column holds. */
const ELSEWHERE: ReadonlySet<string> = new Set([
  'functions',
  'limitContacts',
  'positions',
  'bridges',
  'supplies',
  'grounds',
  'inputs',
  'sensorSupplies',
  'points',
]);

/** Lists whose entries may hold blanks. */
const FREE_LISTS: ReadonlySet<string> = new Set(['runsIn', 'at', 'closedIn']);

type Shape = Readonly<Record<string, z.core.$ZodType>>;

const text = (field: string, header = field): Column => ({ field, header, type: 'text' });

const partShapes: readonly Shape[] = [bodySchema, ...partSchema.options].map(
  (schema) => schema.shape as unknown as Shape,
);
const pinShapes = [supplyPinField, groundPinField, outputPinField, inputPinField, sensorSupplyField].map(
  (schema) => schema.shape as unknown as Shape,
);

export const COLUMNS: Readonly<Record<SheetName, readonly Column[]>> = {
  record: [text('field'), text('value')],
  parts: union([
    text('address'),
    text('kind'),
    ...partShapes.flatMap((shape) => columnsOf(shape)),
    { field: 'points', header: 'ohms by temperature', type: 'temperatures' },
  ]),
  functions: union([text('part'), ...columnsOf(functionField.shape)]),
  contacts: [
    text('part'),
    ...columnsOf(positionField.shape).map((column) => (column.field === 'name' ? text('position') : column)),
    ...columnsOf(limitContactField.shape),
  ],
  modules: union([text('part'), text('pin'), ...pinShapes.flatMap((shape) => columnsOf(shape))]),
  cavities: [text('part'), text('half'), { field: 'cavities', header: 'bridged cavities', type: 'names' }],
  wires: columnsOf(wireSchema.shape),
  'double-crimps': columnsOf(doubleCrimpSchema.shape),
  routes: columnsOf(segmentSchema.shape),
  assemblies: columnsOf(assemblySchema.shape),
  states: union([
    text('state'),
    text('what'),
    text('item'),
    text('value'),
    ...columnsOf(linkField.shape).filter((column) => column.type === 'number'),
    { field: 'outputVolts', header: 'output (V)', type: 'number' },
    { field: 'limitAmps', header: 'limit (A)', type: 'number' },
  ]),
  findings: columnsOf(acceptedFindingSchema.shape),
};

/** Fields of the record itself that the sheet `record` lists. */
export const RECORD_FIELDS: readonly Column[] = columnsOf(recordSchema.shape).filter(({ field }) => field !== 'format');

/** Header of a field: `contactRatingAmps` -> `contact rating (A)`. */
export function headerOf(field: string): string {
  const unit = FIELD_UNITS.find(([ending]) => field.endsWith(ending));
  const stem = unit === undefined ? field : field.slice(0, -unit[0].length);
  const words = stem
    .replaceAll('.', ' ')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();
  return unit === undefined ? words : `${words} (${unit[1]})`;
}

function columnsOf(shape: object, prefix = ''): readonly Column[] {
  return Object.entries(shape as Shape).flatMap(([name, schema]) => {
    const field = prefix + name;
    const inner = unwrap(schema);
    if (inner._zod.def.type === 'object') return columnsOf((inner as z.ZodObject).shape, `${field}.`);
    const type = ELSEWHERE.has(field) ? null : columnType(name, inner);
    return type === null ? [] : [{ field, header: headerOf(field), type }];
  });
}

/** Null for lists of objects: they have a sheet of their own. */
function columnType(name: string, schema: z.core.$ZodType): ColumnType | null {
  const { type } = schema._zod.def;
  if (type === 'number') return 'number';
  if (type === 'boolean') return 'flag';
  if (type === 'tuple') return 'names';
  if (type === 'union') return name === 'systemVolts' ? 'number' : 'count-or-names';
  if (type !== 'array') return 'text';
  const element = unwrap((schema as z.ZodArray).element as z.core.$ZodType)._zod.def.type;
  if (element === 'object' || element === 'union') return null;
  if (element === 'array') return 'sets';
  return FREE_LISTS.has(name) ? 'texts' : 'names';
}

function unwrap(schema: z.core.$ZodType): z.core.$ZodType {
  return schema._zod.def.type === 'optional' ? unwrap((schema as z.ZodOptional).unwrap() as z.core.$ZodType) : schema;
}

/** Each field once, in the order of first appearance. */
function union(columns: readonly Column[]): readonly Column[] {
  const byField = new Map<string, Column>();
  for (const column of columns) if (!byField.has(column.field)) byField.set(column.field, column);
  return [...byField.values()];
}
