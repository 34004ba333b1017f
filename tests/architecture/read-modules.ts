// Reads the source tree as text and as a list of imports, for the architecture tests.
// It must not judge: the rules stand in the tests.

import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import type { SourceModule } from './layer-rule.js';

export const repositoryRoot = fileURLToPath(new URL('../../', import.meta.url));

/** Files the project generates; they are not held to the rules for written code. */
export const generatedFiles: readonly string[] = ['src/web/api-types.ts'];

export interface TextFile {
  /** Relative to the repository root, with `/` between folders. */
  readonly file: string;
  readonly text: string;
}

/** Every file under `folder` whose name ends in one of `endings`, in name order. Empty when the folder is absent. */
export function readTree(folder: string, endings: readonly string[]): TextFile[] {
  let names: string[];
  try {
    names = readdirSync(join(repositoryRoot, folder), { recursive: true, encoding: 'utf8' });
  } catch {
    return [];
  }
  return names
    .filter((name) => endings.some((ending) => name.endsWith(ending)))
    .map((name) => join(repositoryRoot, folder, name))
    .map((path) => ({ file: relative(repositoryRoot, path).split(sep).join('/'), text: readFileSync(path, 'utf8') }))
    .sort((a, b) => (a.file < b.file ? -1 : 1));
}

/** The modules under src with everything they import: static, type-only, re-exported, dynamic and in types. */
export function readSourceModules(): SourceModule[] {
  return readTree('src', ['.ts', '.tsx']).map(({ file, text }) => ({ file, imports: importsOf(file, text) }));
}

/** The module specifiers that `text` imports or re-exports, in order of appearance. */
export function importsOf(file: string, text: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const specifier = specifierOf(node);
    if (specifier !== undefined && ts.isStringLiteralLike(specifier)) found.push(specifier.text);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, false));
  return found;
}

function specifierOf(node: ts.Node): ts.Node | undefined {
  if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return node.moduleSpecifier;
  if (ts.isExternalModuleReference(node)) return node.expression;
  if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) return node.argument.literal;
  if (ts.isCallExpression(node) && isImportOrRequire(node.expression)) return node.arguments[0];
  return undefined;
}

function isImportOrRequire(callee: ts.Expression): boolean {
  return callee.kind === ts.SyntaxKind.ImportKeyword || (ts.isIdentifier(callee) && callee.text === 'require');
}
