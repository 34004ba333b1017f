// Routes of import and export: sheets or a document in, the record or its sheets out.
// They must not read sheets themselves.

import { z } from 'zod';
import { recordSchema } from '../../core/record/record.js';
import { issuesShown } from '../../service/problem.js';
import { harnessParams } from '../schemas/harness.js';
import { importBody, importedSchema, sheetsSchema } from '../schemas/imports.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import { revisionQuery } from '../schemas/questions.js';
import type { RouteContext } from './context.js';
import { etagOf } from './preconditions.js';

const csvMediaType = 'text/csv; charset=utf-8';

export function importRoutes({ app, services: { imports }, security }: RouteContext): void {
  const shared = { tags: ['Import and export'], security };

  app.route({
    method: 'POST',
    url: '/imports',
    schema: {
      ...shared,
      operationId: 'importHarness',
      summary: 'Import CSV sheets or a JSON document',
      description:
        'Keeps a new harness when there is no problem at all. With store=false nothing is kept: the answer shows what was understood, what was assumed and every problem.',
      querystring: z.strictObject({
        store: z.enum(['true', 'false']).default('true').describe('false: only look, answer 200 with the problems'),
      }),
      body: importBody,
      response: {
        200: importedSchema,
        201: importedSchema,
        ...problems('import-invalid', 'record-invalid', ...bodyProblems),
      },
    },
    handler: async ({ body: { note, ...input }, query: { store } }, reply) => {
      if (store === 'false') {
        const { record, issues, warnings, sheets } = imports.preview(input);
        return {
          harness: null,
          record,
          issueCount: issues.length,
          issues: issues.slice(0, issuesShown),
          warnings,
          sheets,
        };
      }
      const { harness, warnings, sheets } = await imports.keep(input, note ?? null);
      reply.code(201).header('location', `/api/v1/harnesses/${harness.id}`).header('etag', etagOf(harness.revision));
      return { harness, record: null, issueCount: 0, issues: [], warnings, sheets };
    },
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/export.json',
    schema: {
      ...shared,
      operationId: 'exportJson',
      summary: 'The record as a JSON file',
      description: 'The bare record; importing it gives the same harness.',
      params: harnessParams,
      querystring: revisionQuery,
      response: { 200: recordSchema, ...problems('harness-not-found', 'revision-not-found') },
    },
    handler: async ({ params, query }, reply) => {
      const { record, revision } = await imports.revision(params.harness, query.revision);
      attach(reply, `${params.harness}-${revision}.json`);
      return record;
    },
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/sheets',
    schema: {
      ...shared,
      operationId: 'exportSheets',
      summary: 'The record as CSV sheets',
      description: 'All sheets that the record needs, each with its name and text.',
      params: harnessParams,
      querystring: revisionQuery,
      response: { 200: sheetsSchema, ...problems('harness-not-found', 'revision-not-found') },
    },
    handler: async ({ params, query }) => ({ sheets: await imports.sheets(params.harness, query.revision) }),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/sheets/:sheet',
    schema: {
      ...shared,
      operationId: 'exportSheet',
      summary: 'One CSV sheet as a file',
      description: 'By the name that the list of sheets gives: `wires.csv`.',
      params: harnessParams.extend({ sheet: z.string().min(1).max(100) }),
      querystring: revisionQuery,
      response: {
        200: { description: 'The sheet', content: { 'text/csv': { schema: z.string() } } },
        ...problems('harness-not-found', 'revision-not-found', 'sheet-not-found'),
      },
    },
    handler: async ({ params, query }, reply) => {
      const { name, text } = await imports.sheet(params.harness, params.sheet, query.revision);
      attach(reply, `${params.harness}-${name}`);
      return reply.type(csvMediaType).send(text);
    },
  });
}

/** Ids and sheet names are plain ASCII, so they need no quoting. */
function attach(reply: { header(name: string, value: string): unknown }, fileName: string): void {
  reply.header('content-disposition', `attachment; filename="${fileName}"`);
}
