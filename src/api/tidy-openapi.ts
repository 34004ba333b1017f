// Tidies the generated description: one schema where input and output agree, none that nobody refers to, a word for each answer.
// It must not change what the description means.

import { STATUS_CODES } from 'node:http';

type Schemas = Record<string, unknown>;

/** As much of an OpenAPI 3.1 document as is handled here. */
export interface OpenApiDocument {
  readonly openapi: string;
  readonly info: object;
  readonly components?: { readonly schemas?: Schemas };
  readonly paths?: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

interface Operation {
  readonly responses?: Readonly<Record<string, { description: string; readonly content?: Content }>>;
}

type Content = Readonly<Record<string, { readonly schema?: { readonly $ref?: string } }>>;

const reference = (name: string): string => `#/components/schemas/${name}`;

/** A new document; `document` stays as it is. */
export function tidyOpenApi(document: OpenApiDocument): OpenApiDocument {
  const merged = mergeInputs(document);
  const schemas = (merged.components?.schemas ?? {}) as Schemas;
  const used = referredTo({ ...merged, components: {} }, schemas);
  const kept = Object.fromEntries(Object.entries(schemas).filter(([name]) => used.has(name)));
  const tidied = { ...merged, components: { ...merged.components, schemas: kept } } as OpenApiDocument;
  describeAnswers(tidied, kept);
  return tidied;
}

/** The generator writes each named schema twice, `X` as given and `XInput` as taken; here they never differ but in those names. */
function mergeInputs(document: OpenApiDocument): OpenApiDocument {
  const names = Object.keys(document.components?.schemas ?? {});
  const twins = names.filter((name) => names.includes(`${name}Input`));
  const text = twins.reduce(
    (whole, name) => whole.replaceAll(`"${reference(`${name}Input`)}"`, `"${reference(name)}"`),
    JSON.stringify(document),
  );
  const merged = JSON.parse(text) as OpenApiDocument;
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

function describeAnswers(document: OpenApiDocument, schemas: Schemas): void {
  for (const path of Object.values(document.paths ?? {})) {
    for (const operation of Object.values(path)) {
      for (const [status, answer] of Object.entries(operation.responses ?? {})) {
        if (answer.description !== 'Default Response') continue;
        const name = Object.values(answer.content ?? {})[0]
          ?.schema?.$ref?.split('/')
          .pop();
        const described = (name === undefined ? undefined : schemas[name]) as { description?: string } | undefined;
        answer.description =
          described?.description ?? `${STATUS_CODES[status]}${name === undefined ? '' : `: ${name}`}`;
      }
    }
  }
}
