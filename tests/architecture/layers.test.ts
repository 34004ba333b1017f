// Refuses an import that runs against the layer order of layers.json, and a core that is not pure.
// It must not pass because it read nothing: an empty tree fails.

import { describe, expect, it } from 'vitest';
import { layerRules, layerViolations, type SourceModule } from './layer-rule.js';
import { importsOf, readSourceModules } from './read-modules.js';

describe('the layers of src', () => {
  const modules = readSourceModules();

  it('are read from files that exist and import each other', () => {
    expect(modules.length).toBeGreaterThan(0);
    expect(modules.flatMap((module) => module.imports).length).toBeGreaterThan(0);
  });

  it('are imported in one direction only', () => {
    expect(layerViolations(modules, layerRules)).toEqual([]);
  });
});

describe('the layer rule itself', () => {
  const judge = (file: string, ...imports: string[]): string[] => {
    const module: SourceModule = { file, imports };
    return layerViolations([module], layerRules);
  };

  it.each([
    ['a lower layer using a higher one', 'src/core/graph/path.ts', '../circuit/solution.js'],
    ['core using the service', 'src/core/answers/feeds.ts', '../../service/errors.js'],
    ['a port using its store', 'src/service/ports.ts', '../store/sqlite/open.js'],
    ['api using a store', 'src/api/routes.ts', '../store/sqlite/open.js'],
    ['a store using the api', 'src/store/sqlite/open.ts', '../../api/routes.js'],
    ['the page using core', 'src/web/ask.tsx', '../core/answers/feeds.js'],
    ['numeric using units', 'src/core/numeric/factor.ts', '../units/parsed.js'],
    ['a layer using the wiring', 'src/api/server.ts', '../main.js'],
    ['core using the public names', 'src/core/graph/path.ts', '../../index.js'],
    ['source using a test', 'src/core/graph/path.ts', '../../../tests/support/build.js'],
    ['core doing input and output', 'src/core/record/read.ts', 'node:fs'],
    ['core using the built-in by its short name', 'src/core/record/read.ts', 'fs'],
    ['a package where it does not belong', 'src/core/circuit/settle.ts', 'fastify'],
    ['a scoped package where it does not belong', 'src/service/ask.ts', '@fastify/static'],
    ['the library using the api', 'src/index.ts', './api/routes.js'],
    ['the server wiring the page in', 'src/main.ts', './web/main.js'],
    ['a file of no layer', 'src/core/helpers.ts', './units/parsed.js'],
  ])('refuses %s', (_what, file, specifier) => {
    expect(judge(file, specifier)).toHaveLength(1);
  });

  it.each([
    ['a higher layer using a lower one', 'src/core/circuit/settle.ts', '../graph/element.js'],
    ['a layer using itself', 'src/core/record/kinds/loads.ts', './common.js'],
    ['a package with a deep path', 'src/core/graph/path.ts', 'graphology-shortest-path/dijkstra.js'],
    ['api using the service', 'src/api/routes.ts', '../service/ask.js'],
    ['the server wiring a store in', 'src/main.ts', './store/sqlite/open.js'],
  ])('allows %s', (_what, file, specifier) => {
    expect(judge(file, specifier)).toEqual([]);
  });

  it('refuses a barrel inside core', () => {
    expect(judge('src/core/graph/index.ts')).toHaveLength(1);
  });

  it('reads every way in which a module can name another', () => {
    const text = [
      `import a from './a.js';`,
      `import type { B } from './b.js';`,
      `export { c } from './c.js';`,
      `export * from './d.js';`,
      `const e = await import('./e.js');`,
      `type F = import('./f.js').F;`,
      `import './g.js';`,
      `// import './comment.js';`,
    ].join('\n');
    expect(importsOf('x.ts', text)).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((name) => `./${name}.js`));
  });
});
