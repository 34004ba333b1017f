// The layer rule as a pure function over "this file imports that": layer order comes from layers.json as data.
// It must not read files; who calls it hands in the modules.

import layerData from './layers.json' with { type: 'json' };

/** One source file and what it imports. `file` is relative to the repository root, with `/` between folders. */
export interface SourceModule {
  readonly file: string;
  readonly imports: readonly string[];
}

export interface LayerRules {
  /** Layer names from the lowest to the highest; a layer may import only those before it. */
  readonly order: readonly string[];
  /** Layers that import nothing of ours but themselves. */
  readonly standAlone: readonly string[];
  /** Layers that do not import each other. */
  readonly apart: readonly string[];
  /** Packages each layer may import; a trailing `*` stands for any ending. */
  readonly packages: ReadonlyMap<string, readonly string[]>;
  /** Files directly under src and the layers they may import. */
  readonly rootFiles: ReadonlyMap<string, readonly string[]>;
}

export const layerRules: LayerRules = {
  order: layerData.order,
  standAlone: layerData.standAlone,
  apart: layerData.apart,
  packages: new Map(Object.entries(layerData.packages)),
  rootFiles: new Map(Object.entries(layerData.rootFiles)),
};

/** Everything in `modules` that breaks `rules`, one sentence each; empty when the house stands. */
export function layerViolations(modules: readonly SourceModule[], rules: LayerRules): string[] {
  return modules.flatMap((module) => violationsOf(module, rules));
}

function violationsOf(module: SourceModule, rules: LayerRules): string[] {
  const home = layerOf(module.file, rules);
  if (home === undefined) return [`${module.file}: stands in no layer`];
  const found: string[] = [];
  if (home.kind === 'layer' && home.name.startsWith('core/') && /(^|\/)index\.tsx?$/.test(module.file)) {
    found.push(`${module.file}: no barrel files inside core`);
  }
  for (const specifier of module.imports) {
    const reason = specifier.startsWith('.')
      ? refusedNeighbour(module.file, home, specifier, rules)
      : refusedPackage(home, specifier, rules);
    if (reason !== undefined) found.push(`${module.file} imports ${specifier}: ${reason}`);
  }
  return found;
}

type Home = { readonly kind: 'layer'; readonly name: string } | { readonly kind: 'root'; readonly name: string };

function layerOf(file: string, rules: LayerRules): Home | undefined {
  const inside = file.replace(/^src\//, '');
  const layer = rules.order.find((name) => inside.startsWith(`${name}/`));
  if (layer !== undefined) return { kind: 'layer', name: layer };
  const root = inside.replace(/\.(ts|js)$/, '');
  return rules.rootFiles.has(root) ? { kind: 'root', name: root } : undefined;
}

function refusedNeighbour(file: string, home: Home, specifier: string, rules: LayerRules): string | undefined {
  const target = resolveRelative(file, specifier);
  if (!target.startsWith('src/')) return 'leaves src';
  const there = layerOf(target, rules);
  if (there === undefined) return 'stands in no layer';
  if (there.kind === 'root') return `nothing imports ${there.name}`;
  if (home.kind === 'root') {
    const allowed = rules.rootFiles.get(home.name) ?? [];
    return matchesAny(there.name, allowed) ? undefined : `${home.name} may not use ${there.name}`;
  }
  if (there.name === home.name) return undefined;
  if (rules.standAlone.includes(home.name)) return `${home.name} imports nothing of ours`;
  if (rules.apart.includes(home.name) && rules.apart.includes(there.name)) {
    return `${home.name} and ${there.name} do not import each other`;
  }
  return rules.order.indexOf(there.name) < rules.order.indexOf(home.name)
    ? undefined
    : `${there.name} stands above ${home.name}`;
}

function refusedPackage(home: Home, specifier: string, rules: LayerRules): string | undefined {
  if (home.kind === 'root') return undefined;
  const allowed = rules.packages.get(home.name) ?? [];
  return matchesAny(packageName(specifier), allowed) ? undefined : `${home.name} may use only [${allowed.join(', ')}]`;
}

function matchesAny(name: string, patterns: readonly string[]): boolean {
  return patterns.some((pattern) => (pattern.endsWith('*') ? name.startsWith(pattern.slice(0, -1)) : name === pattern));
}

function packageName(specifier: string): string {
  if (specifier.startsWith('node:')) return specifier;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}

/** Joins `./x.js` or `../y/z.js` to the folder of `file`, both with `/`. */
function resolveRelative(file: string, specifier: string): string {
  const path = file.split('/').slice(0, -1);
  for (const step of specifier.split('/')) {
    if (step === '..') path.pop();
    else if (step !== '.') path.push(step);
  }
  return path.join('/');
}
