/**
 * A state as what a person sets by hand, in the order of reaching for it.
 * It must not describe what then happens.
 */
import type { ResolvedState } from '../../circuit/resolved-state.js';

export function stateWords({ source, engineRuns }: ResolvedState): string[] {
  return [
    `State: ${source.name}${source.description === undefined ? '' : ` (${source.description})`}`,
    engineRuns ? 'Engine running' : 'Engine stopped',
    ...Object.entries(source.positions ?? {}).map(([part, position]) => `${part} to ${position}`),
    ...Object.entries(source.commands ?? {}).map(([output, value]) => `${output} ${commandWord(value)}`),
    ...(source.unplugged ?? []).map((part) => `${part} unplugged`),
    ...(source.links ?? []).map(({ from, to }) => `Fused link from ${from} to ${to}`),
  ];
}

function commandWord(value: boolean | number): string {
  if (typeof value === 'boolean') return value ? 'on' : 'off';
  return `${Math.round(100 * value)} %`;
}
