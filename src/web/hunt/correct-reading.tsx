// Corrects the figure of a reading further back: the meter was read or typed wrongly, what came after still holds.
// It must not hide what was entered first; the log keeps it.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { HuntEntry } from '../api/types.js';
import { Keypad } from '../parts/keypad.js';
import { Sheet } from '../parts/sheet.js';

interface CorrectReadingProps {
  readonly entry: HuntEntry;
  readonly isSending: boolean;
  readonly onCorrect: (value: number | null) => void;
}

export function CorrectReading({ entry, isSending, onCorrect }: CorrectReadingProps): JSX.Element | null {
  const [isOpen, setOpen] = useState(false);
  // A correction is itself a line of the log; the reading is what is corrected again.
  const unit = entry.words.startsWith('Corrected') ? null : unitOf(entry.result);
  if (unit === null) return null;
  return (
    <>
      <button type="button" class="button" disabled={isSending} onClick={() => setOpen(true)}>
        Correct the figure<span class="unseen"> of {entry.words}</span>
      </button>
      {isOpen && (
        <Sheet title="What did the meter show?" onClose={() => setOpen(false)}>
          <p>
            {entry.words}: <strong>{entry.result}</strong> was entered.
          </p>
          <Keypad
            unit={unit}
            label="It showed"
            keepAs={`correction ${entry.id}`}
            onEnter={({ value }) => {
              setOpen(false);
              onCorrect(value);
            }}
          />
        </Sheet>
      )}
    </>
  );
}

/** A reading is told with its unit; what was seen is told in words. */
function unitOf(result: string): 'V' | 'Ω' | 'A' | null {
  const [, unit] = /^-?[\d.e+-]+ ([VΩA])$/.exec(result) ?? [];
  return unit === 'V' || unit === 'Ω' || unit === 'A' ? unit : result === 'OL' ? 'Ω' : null;
}
