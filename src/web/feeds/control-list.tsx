// What makes the contacts on the feed close: coil, switch or module output, and the coil's own paths.
// It must not be shown for a feed without contacts.

import type { JSX } from 'preact';
import type { Feeds } from '../api/types.js';
import { Fold } from '../parts/fold.js';
import { Tag } from '../parts/tag.js';
import { PathList } from './path-list.js';

export function ControlList({ controls }: { controls: Feeds['controls'] }): JSX.Element {
  return (
    <ul class="plain-list">
      {controls.map((control) => (
        <li key={control.contact} class="control">
          <p>
            <Tag address={control.contact} /> <strong>{control.closed ? 'closed' : 'open'}</strong>. {control.needs}
          </p>
          {control.paths.length > 0 && (
            <Fold summary={<>Its coil, feed and return</>}>
              {() => (
                <>
                  {control.paths.map((path) => (
                    <PathList
                      key={path.steps.map(({ element }) => element).join()}
                      path={path}
                      label={`Control path of ${control.contact}`}
                      isShareShown={false}
                    />
                  ))}
                </>
              )}
            </Fold>
          )}
        </li>
      ))}
    </ul>
  );
}
