// What else can be asked about one address, as links.
// It must not offer a question that the address cannot answer.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { harness, index } from '../state/harness.js';
import { wrongLoad } from '../state/wrong-load.js';
import { partOfFunction } from '../words/addresses.js';

type Question = 'feeds' | 'profile' | 'pull' | 'plug' | 'map' | 'part' | 'hunt';

interface MoreQuestionsProps {
  /** A part, or a function such as `E1:dip`. */
  readonly address: string;
  readonly except: Question;
}

export function MoreQuestions({ address, except }: MoreQuestionsProps): JSX.Element | null {
  const id = harness.value?.harness;
  const record = index.value;
  const part = record?.parts.get(partOfFunction(address));
  if (id === undefined || record === null || record === undefined || part === undefined) return null;
  const isFunction = record.choices.functions.some((fn) => fn.id === address);
  const isPluggable = record.choices.plugs.some((plug) => plug.address === part.address);
  const isConnector = part.kind === 'connector';
  const all: readonly (readonly [Question, string, string, boolean])[] = [
    ['feeds', 'What feeds it?', to.at(id, 'feeds', address), isFunction],
    ['profile', 'Where do the volts go?', to.at(id, 'profile', address), isFunction],
    ['pull', 'What breaks if I pull it?', to.many(id, 'pull', [part.address]), isPluggable],
    ['plug', 'What runs through it?', to.at(id, 'plug', part.address), isConnector],
    ['map', 'Draw what it touches', to.at(id, 'map', address), true],
    ['part', 'What is recorded of it?', to.at(id, 'part', part.address), true],
    ['hunt', 'It is not as it should be', to.page(id, 'hunts'), isFunction],
  ];
  return (
    <nav class="more" aria-label={`More about ${address}`}>
      {all
        .filter(([question, , , isFitting]) => isFitting && question !== except)
        .map(([question, words, href]) => (
          <a
            key={question}
            class="more-link"
            href={href}
            onClick={() => {
              if (question === 'hunt') wrongLoad.value = address;
            }}
          >
            {words}
          </a>
        ))}
    </nav>
  );
}
