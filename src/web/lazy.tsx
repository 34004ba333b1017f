// A component whose code is fetched when it is first shown, so that the first load stays small.
// It must not be used for what answers the first three questions.

import type { FunctionComponent, JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Progress } from './parts/progress.js';

export function lazy<P extends object>(load: () => Promise<FunctionComponent<P>>): FunctionComponent<P> {
  let loaded: FunctionComponent<P> | null = null;
  return function Lazy(props: P): JSX.Element {
    const [, redraw] = useState(0);
    const [isSlow, setSlow] = useState(false);
    const [hasFailed, setFailed] = useState(false);
    useEffect(() => {
      if (loaded !== null) return;
      const slow = setTimeout(() => setSlow(true), 300);
      load()
        .then((component) => {
          loaded = component;
          redraw((before) => before + 1);
        })
        .catch(() => setFailed(true))
        .finally(() => clearTimeout(slow));
      return () => clearTimeout(slow);
    }, []);
    if (loaded !== null) {
      const Loaded = loaded;
      return <Loaded {...props} />;
    }
    return (
      <main class="main" id="main">
        {hasFailed ? (
          <p class="box box-bad" role="alert">
            This page could not be fetched. Reload when the server can be reached.
          </p>
        ) : (
          <Progress isShown={isSlow} words="Fetching this page" />
        )}
      </main>
    );
  };
}
