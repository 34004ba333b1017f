// Tidies the generated description: one schema where input and output agree, none that nobody refers to, a word for each answer.
// It must not change what the description means.

import { STATUS_CODES } from 'node:http';
import type { OpenAPIV3_1 } from 'openapi-types';

type Schemas = Record<string, unknown>;

const reference = (name: string): string => `#/components/schemas/${name}`;

/** A new document; `document` stays as it is. */
export function tidyOpenApi(document: OpenAPIV3_1.Document): OpenAPIV3_1.Document {
  const merged = mergeInputs(document);
  const schemas = (merged.components?.schemas ?? {}) as Schemas;
  const used = referredTo({ ...merged, components: {} }, schemas);
  const kept = Object.fromEntries(Object.entries(schemas).filter(([name]) => used.has(name)));
  const tidied = { ...merged, components: { ...merged.components, schemas: kept } } as OpenAPIV3_1.Document;
  describeAnswers(tidied, kept);
  return tidied;
}

/** The generator writes each named schema twice, `X` as given and `XInput` as taken; here they never differ but in those names. */
function mergeInputs(document: OpenAPIV3_1.Document): OpenAPIV3_1.Document {
  const names = Object.keys(document.components?.schemas ?? {});
  const twins = names.filter((name) => names.includes(`${name}Input`));
  const text = twins.reduce(
    (whole, name) => whole.replaceAll(`"${reference(`${name}Input`)}"`, `"${reference(name)}"`),
    JSON.stringify(document),
  );
  const merged = JSON.parse(text) as OpenAPIV3_1.Document;
  const schemas = merged.components?.schemas as Schemas;
  for (const name of twins) {
    if (JSON.stringify(schemas[name]) !== JSON.stringify(schemas[`${name}Input`])) {
      throw new Error(`the schema ${name} is taken otherwise than it is given`);
    }
    delete schemas[`${name}Input`];
  }
  return merged;
}

function referredTo(root: unknown, schemas: Schemas): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (value: unknown): void => {
    for (const [, name] of JSON.stringify(value).matchAll(/"#\/components\/schemas\/([^"]+)"/g)) {
      if (found.has(name)) continue;
      found.add(name);
      visit(schemas[name]);
    }
  };
  visit(root);
  return found;
}

function describeAnswers(document: OpenAPIV3_1.Document, schemas: Schemas): void {
  for (const path of Object.values(document.paths ?? {})) {
    for (const operation of Object.values(path ?? {}) as OpenAPIV3_1.OperationObject[]) {
      for (const [status, answer] of Object.entries(operation.responses ?? {})) {
        if ('$ref' in answer || answer.description !== 'Default Response') continue;
        const schema = Object.values(answer.content ?? {})[0]?.schema;
        const name = schema !== undefined && '$ref' in schema ? schema.$ref.split('/').pop() : undefined;
        const described = (name === undefined ? undefined : schemas[name]) as { description?: string } | undefined;
        answer.description =
          described?.description ?? `${STATUS_CODES[status]}${name === undefined ? '' : `: ${name}`}`;
      }
    }
  }
}
