// Places boxes and lines by layers (elkjs, in a worker, fetched when first needed).
// It must not decide what is drawn.

import type { ELK, ELKConstructorArguments, ElkNode } from 'elkjs/lib/elk-api.js';
import type { DrawnEdge, DrawnGraph, DrawnNode } from './drawn-graph.js';

export interface PlacedNode {
  readonly node: DrawnNode;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PlacedEdge {
  readonly edge: DrawnEdge;
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly label: { readonly x: number; readonly y: number; readonly width: number } | null;
}

export interface Placed {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly PlacedNode[];
  readonly edges: readonly PlacedEdge[];
}

export interface TextSizes {
  readonly nodeWidth: (address: string) => number;
  readonly nodeHeight: number;
  readonly labelWidth: (wire: string) => number;
  readonly labelHeight: number;
}

type ElkConstructor = new (options: ELKConstructorArguments) => ELK;

let engine: Promise<ELK> | null = null;

async function startEngine(): Promise<ELK> {
  const [module, { default: workerUrl }] = await Promise.all([
    import('elkjs/lib/elk-api.js'),
    import('elkjs/lib/elk-worker.min.js?url'),
  ]);
  // The package is CommonJS: compiler and builder disagree on which `default` is the class.
  const Elk = module.default as unknown as ElkConstructor;
  return new Elk({ workerFactory: () => new Worker(new URL(workerUrl, document.baseURI)) });
}

export async function layOut(graph: DrawnGraph, sizes: TextSizes, direction: 'DOWN' | 'RIGHT'): Promise<Placed> {
  engine ??= startEngine();
  const elk = await engine;
  const asked: ElkNode = {
    id: 'root',
    layoutOptions: {
      'elk.algorithm': 'layered',
      'elk.direction': direction,
      'elk.edgeRouting': 'ORTHOGONAL',
      'elk.layered.spacing.nodeNodeBetweenLayers': '34',
      'elk.spacing.nodeNode': '22',
      'elk.spacing.edgeLabel': '4',
      'elk.edgeLabels.inline': 'true',
      'elk.padding': '[top=14,left=14,bottom=14,right=14]',
    },
    children: graph.nodes.map(({ address }) => ({
      id: address,
      width: sizes.nodeWidth(address),
      height: sizes.nodeHeight,
    })),
    edges: graph.edges.map(({ id, from, to, wire }) => ({
      id,
      sources: [from],
      targets: [to],
      labels: wire === null ? [] : [{ text: wire, width: sizes.labelWidth(wire), height: sizes.labelHeight }],
    })),
  };
  const laid = await elk.layout(asked);
  const nodes = new Map(graph.nodes.map((node) => [node.address, node]));
  const edges = new Map(graph.edges.map((edge) => [edge.id, edge]));
  return {
    width: laid.width ?? 0,
    height: laid.height ?? 0,
    nodes: (laid.children ?? []).flatMap(({ id, x = 0, y = 0, width = 0, height = 0 }) => {
      const node = nodes.get(id);
      return node === undefined ? [] : [{ node, x, y, width, height }];
    }),
    edges: (laid.edges ?? []).flatMap(({ id, sections = [], labels = [] }) => {
      const edge = edges.get(id);
      if (edge === undefined) return [];
      const points = sections.flatMap(({ startPoint, bendPoints = [], endPoint }) => [
        startPoint,
        ...bendPoints,
        endPoint,
      ]);
      const [label] = labels;
      return [
        {
          edge,
          points,
          label: label === undefined ? null : { x: label.x ?? 0, y: label.y ?? 0, width: label.width ?? 0 },
        },
      ];
    }),
  };
}
