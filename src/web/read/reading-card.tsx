// One expected reading: where the leads go, the figure with the load plugged in, and without.
// It must not show a floating point as 0.

import type { JSX } from 'preact';
import type { Reading } from '../api/types.js';
import { bandText, figureText, tooSmallToJudgeVolts } from '../words/figures.js';
import { Leads } from './leads.js';

interface ReadingCardProps {
  readonly reading: Reading;
  readonly onDrop: () => void;
  readonly onBlack: () => void;
}

export function ReadingCard({ reading, onDrop, onBlack }: ReadingCardProps): JSX.Element {
  return (
    <article class="reading" aria-label={`Red on ${reading.red}, black on ${reading.black}`}>
      <Leads red={reading.red} black={reading.black} />
      <p class="reading-figure">{mainFigure(reading)}</p>
      <ul class="reading-more">
        {reading.unit !== 'lamp' && bandText(reading.connected, reading.unit) !== null && (
          <li>healthy from {bandText(reading.connected, reading.unit)}</li>
        )}
        {reading.loadUnplugged !== null && (
          <li>
            {figureText(reading.loadUnplugged.nominal, reading.unit)} with the load unplugged: a good value then clears
            only a full break
          </li>
        )}
        {reading.lamp !== null && reading.unit !== 'lamp' && <li>a test lamp is {reading.lamp}</li>}
        {isTooSmall(reading) && <li>too small to judge with a hand-held meter</li>}
        {reading.floating && <li>tied to nothing: the meter itself decides what it shows</li>}
        {reading.note !== null && <li>{reading.note}</li>}
      </ul>
      <div class="buttons no-print">
        <button type="button" class="button" onClick={onBlack}>
          Black elsewhere
        </button>
        <button type="button" class="button" onClick={onDrop}>
          Take off the list
        </button>
      </div>
    </article>
  );
}

function mainFigure(reading: Reading): string {
  if (reading.unit === 'lamp') return reading.lamp ?? 'not known';
  if (reading.overLimit) return 'OL';
  if (reading.floating && reading.connected.nominal === null) return 'floats';
  return figureText(reading.connected.nominal, reading.unit);
}

const isTooSmall = ({ unit, connected }: Reading): boolean =>
  unit === 'V' &&
  connected.nominal !== null &&
  connected.nominal !== 0 &&
  Math.abs(connected.nominal) < tooSmallToJudgeVolts;
