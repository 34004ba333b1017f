// Module hooks: a relative './x.js' that is not there is './x.ts', and TypeScript is stripped to the JavaScript of the target.
// They must not resolve or change anything of node_modules.

import { readFile } from 'node:fs/promises';
import ts from 'typescript';

export async function resolve(specifier, context, next) {
  try {
    return await next(specifier, context);
  } catch (error) {
    if (error.code !== 'ERR_MODULE_NOT_FOUND' || !/^\.{1,2}\/.*\.js$/.test(specifier)) throw error;
    return next(`${specifier.slice(0, -2)}ts`, context);
  }
}

export async function load(url, context, next) {
  if (!url.endsWith('.ts') || url.includes('/node_modules/')) return next(url, context);
  const { outputText } = ts.transpileModule(await readFile(new URL(url), 'utf8'), {
    fileName: url,
    compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2023, inlineSourceMap: true },
  });
  return { format: 'module', source: outputText, shortCircuit: true };
}
