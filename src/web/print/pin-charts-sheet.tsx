// Pin charts: one sheet per connector, both halves, faces from the wire side and from the mating side, a box to tick per cavity.
// It must not draw a face that the record does not describe.

import type { JSX } from 'preact';
import type { Revision } from '../api/types.js';
import { nameOf, type RecordIndex } from '../state/record-index.js';
import { partOfPoint } from '../words/addresses.js';
import { colourWords } from '../words/colours.js';
import { ColourMark } from './colour-mark.js';
import { ConnectorFace } from './connector-face.js';
import { type CavityRow, type Half, pinChart } from './pin-chart.js';
import { RunningHead } from './running-head.js';

const halves: readonly Half[] = ['plug', 'receptacle'];
const sides = ['wire', 'mating'] as const;

interface SheetProps {
  readonly revision: Revision;
  readonly index: RecordIndex;
}

export function PinChartsSheet({ revision, index }: SheetProps): JSX.Element {
  return (
    <>
      {index.connectors.map((connector, at) => {
        const chart = pinChart(connector, index);
        const isDrawn = chart.face('plug', 'wire') !== null;
        return (
          <article key={connector.address} class="paper">
            <RunningHead
              revision={revision}
              title={`Pin chart ${connector.address}: ${connector.name ?? 'connector'}`}
              sheet={`${at + 1} of ${index.connectors.length}`}
            />
            <p>
              {[connector.location, connector.access !== 'open' ? connector.panel : undefined]
                .filter((word) => word !== undefined)
                .join(', ')}
              {halves.map((half) => {
                const { contacts, shroud, staysWith } = connector[half] ?? {};
                const words = [contacts, shroud, staysWith === undefined ? undefined : `stays with ${staysWith}`];
                const said = words.filter((word) => word !== undefined).join(', ');
                return said === '' ? '' : ` · ${half}: ${said}`;
              })}
            </p>
            {isDrawn ? (
              <div class="faces">
                {halves.map((half) => (
                  <div key={half} class="faces-half">
                    {sides.map((side) => (
                      <ConnectorFace key={side} chart={chart} half={half} side={side} />
                    ))}
                  </div>
                ))}
              </div>
            ) : (
              <p class="paper-note">
                No face is drawn: the record does not hold{' '}
                {connector.rows === undefined ? 'the rows of the cavity block' : 'the side it was counted from'}. Go by
                the numbers moulded into the housing.
              </p>
            )}
            <table class="paper-table">
              <colgroup>
                <col class="col-cavity" />
                <col />
                <col />
              </colgroup>
              <thead>
                <tr>
                  <td colSpan={3} class="paper-head paper-soft">
                    Pin chart {connector.address}, {revision.record.name}, revision {revision.revision}
                  </td>
                </tr>
                <tr>
                  <th scope="col">Cavity</th>
                  {halves.map((half) => (
                    <th key={half} scope="col">
                      {half === 'plug' ? 'Plug half' : 'Receptacle half'}: tick when in and latched
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {chart.rows.map((row) => (
                  <tr key={row.cavity}>
                    <th scope="row" class="paper-big">
                      {row.cavity}
                    </th>
                    {halves.map((half) => (
                      <td key={half}>
                        <CavityWires row={row} half={half} index={index} />
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </article>
        );
      })}
    </>
  );
}

function CavityWires({ row, half, index }: { row: CavityRow; half: Half; index: RecordIndex }): JSX.Element {
  const held = row.wires[half];
  if (held.length === 0) return <span class="paper-soft">{row.isSpare ? 'spare: seal it' : 'empty'}</span>;
  return (
    <>
      {held.length > 1 && <span class="paper-soft">{held.length} wires in one terminal</span>}
      {held.map(({ wire, to }) => (
        <div key={wire.label} class="pin">
          <span class="paper-box">☐</span>
          <div>
            <div class="pin-line">
              <strong class="paper-mono">{wire.label}</strong>
              <ColourMark colour={wire.colour} />
              <span>{wire.size.replace(' ', '\u00a0')}</span>
            </div>
            <div>
              <strong>{wire.colour ?? ''}</strong> {colourWords(wire.colour)}
            </div>
            <div>
              → <strong class="paper-mono">{to}</strong> {nameOf(index, partOfPoint(to))}
              {wire.circuit !== undefined && <span class="paper-soft"> · {wire.circuit}</span>}
            </div>
          </div>
        </div>
      ))}
    </>
  );
}
