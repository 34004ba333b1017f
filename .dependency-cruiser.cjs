// The layer rule a second time, through a tool that resolves imports as the compiler does, and finds rings of files.
// Order and packages come from tests/architecture/layers.json; they must not be repeated here.

const { order, standAlone, apart, packages } = require('./tests/architecture/layers.json');

const folder = (layer) => `^src/${layer}/`;
const escaped = (text) => text.replace(/[.\\/-]/g, '\\$&');
const packagePattern = (name) =>
  name === 'node:*'
    ? undefined
    : `node_modules/${name.endsWith('*') ? escaped(name.slice(0, -1)) : `${escaped(name)}/`}`;

/** Everything under src that `layer` must not import. */
function forbiddenFor(layer) {
  if (standAlone.includes(layer)) return { path: '^src/', pathNot: folder(layer) };
  const below = order.slice(0, order.indexOf(layer) + 1).filter((name) => name === layer || !bothApart(name, layer));
  return { path: '^src/', pathNot: below.map(folder) };
}

const bothApart = (a, b) => a !== b && apart.includes(a) && apart.includes(b);

module.exports = {
  forbidden: [
    { name: 'no-ring', severity: 'error', from: {}, to: { circular: true } },
    { name: 'no-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true } },
    ...order.map((layer) => ({
      name: `layer-${layer.replace('/', '-')}`,
      severity: 'error',
      from: { path: folder(layer) },
      to: forbiddenFor(layer),
    })),
    ...order.map((layer) => ({
      name: `packages-${layer.replace('/', '-')}`,
      severity: 'error',
      from: { path: folder(layer) },
      to: { path: 'node_modules/', pathNot: packages[layer].map(packagePattern).filter((it) => it !== undefined) },
    })),
    ...order
      .filter((layer) => !packages[layer].includes('node:*'))
      .map((layer) => ({
        name: `pure-${layer.replace('/', '-')}`,
        severity: 'error',
        from: { path: folder(layer) },
        to: { dependencyTypes: ['core'] },
      })),
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
    },
  },
};
