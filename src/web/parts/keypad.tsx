// A big keypad for one reading: digits, sign, unit. For a thumb, with gloves; a text field takes dictation and keyboards.
// It must not decide what is a sensible value.

import type { JSX } from 'preact';
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { readStored, writeStored } from '../state/stored-signal.js';
import { readFigure } from '../words/read-figure.js';

interface EnteredReading {
  /** In the base unit: V, Ω or A. Null: the meter showed overload (OL). */
  readonly value: number | null;
}

interface Unit {
  readonly words: string;
  readonly factor: number;
}

const unitsOf: Readonly<Record<'V' | 'Ω' | 'A', readonly Unit[]>> = {
  V: [
    { words: 'V', factor: 1 },
    { words: 'mV', factor: 1e-3 },
  ],
  Ω: [
    { words: 'Ω', factor: 1 },
    { words: 'kΩ', factor: 1e3 },
    { words: 'MΩ', factor: 1e6 },
  ],
  A: [
    { words: 'A', factor: 1 },
    { words: 'mA', factor: 1e-3 },
  ],
};

const keys = ['7', '8', '9', '4', '5', '6', '1', '2', '3', '±', '0', '.'] as const;

interface KeypadProps {
  readonly unit: 'V' | 'Ω' | 'A';
  readonly label: string;
  readonly submitWords?: string;
  /** Name under which what is typed but not yet entered survives a reload; it holds for one field at a time. */
  readonly keepAs?: string;
  readonly onEnter: (reading: EnteredReading) => void;
}

export function Keypad({
  unit,
  label,
  submitWords = 'That is what it shows',
  keepAs,
  onEnter,
}: KeypadProps): JSX.Element {
  const units = unitsOf[unit];
  const [text, setText] = useState(() => typedBefore(keepAs));
  const [chosen, setChosen] = useState(units[0]);
  const [isRefused, setRefused] = useState(false);
  const [isTyped, setTyped] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const id = useId();

  useEffect(() => {
    if (keepAs !== undefined) writeStored(typedKey, { as: keepAs, text });
  }, [keepAs, text]);

  const enter = (reading: EnteredReading): void => {
    setText('');
    onEnter(reading);
  };

  const press = (key: (typeof keys)[number]): void => {
    setRefused(false);
    setText((before) => {
      if (key === '±') return before.startsWith('-') ? before.slice(1) : `-${before}`;
      if (key === '.' && before.includes('.')) return before;
      return before + key;
    });
  };

  const submit = (event: Event): void => {
    event.preventDefault();
    const figure = readFigure(text);
    if (figure === null) {
      setRefused(true);
      return;
    }
    enter({ value: figure.value * (figure.factor ?? chosen.factor) });
  };

  return (
    <form class="keypad" onSubmit={submit}>
      <label for={id}>{label}</label>
      <div class="keypad-shown">
        <input
          id={id}
          ref={field}
          class="keypad-field"
          inputMode={isTyped ? 'text' : 'none'}
          autocomplete="off"
          value={text}
          aria-invalid={isRefused}
          aria-describedby={isRefused ? `${id}-why` : undefined}
          onInput={(event) => {
            setRefused(false);
            setText(event.currentTarget.value);
          }}
        />
        <button
          type="button"
          class="button key-side"
          aria-label="Delete last digit"
          onClick={() => setText((t) => t.slice(0, -1))}
        >
          ⌫
        </button>
      </div>
      <p id={`${id}-why`} class="keypad-why" role="alert">
        {isRefused ? 'Not a number: digits, one point or comma, a sign.' : ''}
      </p>
      <div class="keypad-units">
        {units.map((it) => (
          <button key={it.words} type="button" class="key" aria-pressed={it === chosen} onClick={() => setChosen(it)}>
            {it.words}
          </button>
        ))}
        {unit === 'Ω' && (
          <button type="button" class="key" onClick={() => enter({ value: null })}>
            OL
          </button>
        )}
        <button
          type="button"
          class="key key-words"
          aria-pressed={isTyped}
          onClick={() => {
            setTyped(!isTyped);
            // The phone asks for its keyboard only when the field is entered anew.
            field.current?.blur();
            setTimeout(() => field.current?.focus());
          }}
        >
          Type or speak
        </button>
      </div>
      <div class="keypad-keys">
        {keys.map((key) => (
          <button key={key} type="button" class="key" aria-label={keyName(key)} onClick={() => press(key)}>
            {key}
          </button>
        ))}
      </div>
      <button type="submit" class="button button-main button-tall">
        {submitWords}
      </button>
    </form>
  );
}

const typedKey = 'typed';

function typedBefore(keepAs: string | undefined): string {
  const typed = readStored<{ as: string; text: string } | null>(typedKey, null);
  return keepAs !== undefined && typed?.as === keepAs ? typed.text : '';
}

const keyName = (key: string): string => (key === '±' ? 'change sign' : key === '.' ? 'point' : key);
