// How does the vehicle stand? Pick a named state, then set single switches, the engine, the volts measured at the battery.
// It must not apply half a choice: each tap is one change, and all can be taken back at once.

import type { JSX } from 'preact';
import { useId } from 'preact/hooks';
import type { PositionChoice } from '../api/types.js';
import { Choices } from '../parts/choices.js';
import { Sheet } from '../parts/sheet.js';
import { harness, index } from '../state/harness.js';
import { atRest, baseState, choose, chosen, positionOf } from '../state/operating-state.js';

export function StateSheet({ onClose }: { onClose: () => void }): JSX.Element {
  const states = harness.value?.record.states ?? [];
  const { base, positions, engine, measured } = chosen.value;
  const hasChanges = Object.keys(positions).length > 0 || engine !== null || Object.keys(measured).length > 0;
  return (
    <Sheet title="How does the vehicle stand?" onClose={onClose}>
      <div class="states">
        {[{ name: null, description: 'Every switch in its rest position' }, ...states].map(({ name, description }) => (
          <button
            key={name ?? ''}
            type="button"
            class="state"
            aria-pressed={base === name}
            onClick={() => choose({ ...atRest, base: name })}
          >
            <span class="row-name">{name ?? 'Everything at rest'}</span>
            {description !== undefined && <span class="row-more">{description}</span>}
          </button>
        ))}
      </div>
      {hasChanges && (
        <button type="button" class="button" onClick={() => choose({ ...atRest, base })}>
          Take my changes back
        </button>
      )}
      <details class="fold">
        <summary>Set single switches and the engine</summary>
        <Choices
          legend="Engine"
          options={[
            { id: 'stopped', words: 'stopped' },
            { id: 'running', words: 'running' },
          ]}
          value={engine ?? baseState.value?.engine ?? 'stopped'}
          onChoose={(id) => choose({ ...chosen.value, engine: id })}
        />
        {index.value?.choices.positions.map((entry) => (
          <SwitchChoice key={entry.part} entry={entry} />
        ))}
      </details>
      <details class="fold">
        <summary>Battery as measured</summary>
        {index.value?.batteries.map((battery) => (
          <MeasuredVolts key={battery.address} address={battery.address} name={battery.name ?? battery.address} />
        ))}
      </details>
    </Sheet>
  );
}

function SwitchChoice({ entry }: { entry: PositionChoice }): JSX.Element {
  const { part, name } = entry;
  return (
    <Choices
      legend={name === null ? part : `${name} (${part})`}
      options={entry.positions.map((position) => ({ id: position, words: position }))}
      value={positionOf(part)}
      onChoose={(position) => choose({ ...chosen.value, positions: { ...chosen.value.positions, [part]: position } })}
    />
  );
}

function MeasuredVolts({ address, name }: { address: string; name: string }): JSX.Element {
  const id = useId();
  const set = (text: string): void => {
    const volts = Number(text.replace(',', '.'));
    const { [address]: _dropped, ...others } = chosen.value.measured;
    choose({ ...chosen.value, measured: volts > 0 ? { ...others, [address]: volts } : others });
  };
  return (
    <div class="field">
      <label for={id}>
        {name} ({address}): volts at its posts in this state
      </label>
      <input
        id={id}
        inputMode="decimal"
        autocomplete="off"
        value={chosen.value.measured[address] ?? ''}
        placeholder="as recorded"
        onChange={(event) => set(event.currentTarget.value)}
      />
    </div>
  );
}
