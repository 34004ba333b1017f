// The frame of one page: the question as its heading, which gets the focus when the page opens.
// It must not know what the page asks.

import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

interface PageFrameProps {
  /** Plain words, for the window's title. */
  readonly title: string;
  readonly heading: ComponentChildren;
  readonly children: ComponentChildren;
  readonly width?: 'reading' | 'wide';
}

export function PageFrame({ title, heading, children, width = 'reading' }: PageFrameProps): JSX.Element {
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Lastgood`;
  }, [title]);
  useEffect(() => {
    head.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, []);
  return (
    <main class={`main main-${width}`} id="main">
      <h1 ref={head} tabIndex={-1} class="question">
        {heading}
      </h1>
      {children}
    </main>
  );
}
