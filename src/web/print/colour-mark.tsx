// A piece of wire for paper: hatched, so that black and white tells the colours apart, with the stripe along its middle.
// It must not be the only sign: code and word stand beside it.

import type { JSX } from 'preact';

/**
 * Lines per colour in a tile of 8 by 8. Red, blue, green, violet, yellow, black and white as engravers have hatched them for
 * centuries (from memory); the others are our own.
 */
const hatches: ReadonlyMap<string, JSX.Element> = new Map([
  ['BK', <path key="BK" d="M0 0H8V8H0Z" />],
  ['WH', <path key="WH" d="" />],
  ['RD', <path key="RD" d="M1 0V8M5 0V8" />],
  ['BU', <path key="BU" d="M0 1H8M0 5H8" />],
  ['GN', <path key="GN" d="M0 0L8 8M-2 6L2 10M6 -2L10 2" />],
  ['VT', <path key="VT" d="M8 0L0 8M2 -2L-2 2M10 6L6 10" />],
  ['YE', <path key="YE" d="M1.2 1.2H2.8V2.8H1.2ZM5.2 5.2H6.8V6.8H5.2Z" />],
  ['OG', <path key="OG" d="M1 0V8M5 0V8M0 0L8 8M-2 6L2 10M6 -2L10 2" />],
  ['BN', <path key="BN" d="M1 0V8M5 0V8M0 1H8M0 5H8" />],
  ['GY', <path key="GY" d="M0 1H1M2 3H3M4 1H5M6 3H7M0 5H1M2 7H3M4 5H5M6 7H7" />],
  ['PK', <path key="PK" d="M2 0V3M6 4V7" />],
  ['TQ', <path key="TQ" d="M0 2H3M4 6H7" />],
  ['GD', <path key="GD" d="M2 2H6V6H2Z" />],
  ['SR', <path key="SR" d="M4 0V8" />],
]);

const fills: ReadonlySet<string> = new Set(['BK', 'YE', 'GD']);
const idOf = (code: string): string => `hatch-${code}`;
const known = (code: string | undefined): code is string => code !== undefined && hatches.has(code);

/** Once per page, before any mark: the tiles that the marks refer to. */
export function HatchTiles(): JSX.Element {
  return (
    <svg class="hatch-tiles" aria-hidden="true" focusable="false">
      <defs>
        {[...hatches].map(([code, lines]) => (
          <pattern key={code} id={idOf(code)} width="8" height="8" patternUnits="userSpaceOnUse">
            <path d="M0 0H8V8H0Z" fill="#fff" />
            <g fill={fills.has(code) ? '#000' : 'none'} stroke={fills.has(code) ? 'none' : '#000'} stroke-width="1.3">
              {lines}
            </g>
          </pattern>
        ))}
      </defs>
    </svg>
  );
}

/** Codes of base and stripes: `RD/BK`, `light GN`. */
const colourCodes = (colour: string | undefined): readonly string[] =>
  (colour ?? '').split('/').map((band) => band.trim().split(' ').pop() ?? '');

export function ColourMark({ colour }: { colour: string | undefined }): JSX.Element | null {
  const [base, ...stripes] = colourCodes(colour);
  if (!known(base)) return null;
  return (
    <svg class="colour-mark" viewBox="0 0 64 20" aria-hidden="true" focusable="false">
      <rect x="1" y="1" width="62" height="18" fill={`url(#${idOf(base)})`} stroke="#000" stroke-width="1.2" />
      {stripes.filter(known).map((stripe, at) => {
        const y = 10 - 3.5 * stripes.length + 7 * at;
        return (
          <g key={stripe}>
            <rect x="1.6" y={y - 1} width="60.8" height="9" fill="#fff" />
            <rect x="1" y={y} width="62" height="7" fill={`url(#${idOf(stripe)})`} stroke="#000" stroke-width="1" />
          </g>
        );
      })}
    </svg>
  );
}
