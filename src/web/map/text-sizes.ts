// How much room the words of the drawing take, measured in the fonts that they are drawn in.
// It must not be guessed from the count of letters: names would run over their boxes.

import { index } from '../state/harness.js';
import type { TextSizes } from './lay-out.js';

const longestName = 24;

/** Name (shortened for the drawing; the link says it whole) and address of a part. */
export function linesOfNode(address: string): readonly [name: string, address: string] {
  const part = index.value?.parts.get(address);
  const name = part?.name ?? part?.kind ?? '';
  return [name.length > longestName ? `${name.slice(0, longestName - 1)}…` : name, address];
}

export function textSizes(): TextSizes {
  const context = document.createElement('canvas').getContext('2d');
  const style = getComputedStyle(document.documentElement);
  const measure = (text: string, font: string): number => {
    if (context === null) return text.length * 9;
    context.font = font;
    return context.measureText(text).width;
  };
  const plain = `14px ${style.getPropertyValue('--font')}`;
  const mono = `700 15px ${style.getPropertyValue('--mono')}`;
  return {
    nodeWidth: (address) => {
      const [name] = linesOfNode(address);
      return Math.ceil(Math.max(measure(name, plain), measure(address, mono)) + 28);
    },
    nodeHeight: 48,
    labelWidth: (wire) => Math.ceil(measure(wire, mono) + 34),
    labelHeight: 24,
  };
}
