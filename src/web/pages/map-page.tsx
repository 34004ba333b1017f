// A drawing of just what one question touches: source, fuses, switches, plugs, load, ground, and the wires between.
// It must not become a picture of the whole vehicle.

import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { askFeeds } from '../api/client.js';
import { drawnGraph } from '../map/drawn-graph.js';
import { layOut, type Placed } from '../map/lay-out.js';
import { MapPicture } from '../map/map-picture.js';
import { textSizes } from '../map/text-sizes.js';
import { Choices } from '../parts/choices.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { harness, index } from '../state/harness.js';
import { stateKey, stateQuestion } from '../state/operating-state.js';
import { functionWords } from '../state/record-index.js';
import { useAnswer } from '../state/use-answer.js';
import '../styles/map.css';

const zooms = [0.5, 0.7, 0.85, 1, 1.25, 1.6, 2.2];

export function MapPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const [placed, place] = useState<Placed | null>(null);
  const [hasFailed, setFailed] = useState(false);
  const [zoomAt, setZoomAt] = useState(2);
  const [extent, setExtent] = useState<'ways' | 'all'>('ways');
  const answer = useAnswer(
    open === null ? null : `${open.harness}@${open.revision} ${target} ${stateKey.value}`,
    (signal) => askFeeds(open?.harness ?? '', { function: target, state: stateQuestion.value }, { signal }),
  );
  const feeds = answer.value;
  useEffect(() => {
    if (feeds === null || record === null) return;
    let isWanted = true;
    const drawn = extent === 'all' ? feeds : { ...feeds, controls: [] };
    const graph = drawnGraph(drawn, (label) => record.wires.has(label));
    const direction = matchMedia('(min-width: 60rem)').matches ? 'RIGHT' : 'DOWN';
    layOut(graph, textSizes(), direction).then(
      (laid) => {
        if (!isWanted) return;
        place(laid);
        setZoomAt(fittingZoom(laid.width));
      },
      () => isWanted && setFailed(true),
    );
    return () => {
      isWanted = false;
    };
  }, [feeds, record, extent]);
  if (open === null || record === null) return null;
  const words = functionWords(record, target);
  return (
    <PageFrame
      width="wide"
      title={`Drawing: ${words}`}
      heading={
        <>
          What does <em>{words}</em> touch? <Tag address={target} />
        </>
      }
    >
      <Progress isShown={answer.isSlow || (feeds !== null && placed === null && !hasFailed)} words="Drawing" />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {hasFailed && (
        <p class="box box-bad" role="alert">
          The drawing could not be made. The list of what feeds it says the same in words.
        </p>
      )}
      {placed !== null && (
        <>
          <div class="buttons no-print">
            <Choices
              legend="Draw"
              isLegendShown={false}
              options={[
                { id: 'ways', words: 'There and back' },
                { id: 'all', words: 'With what closes contacts' },
              ]}
              value={extent}
              onChoose={setExtent}
            />
            <button type="button" class="button" disabled={zoomAt === 0} onClick={() => setZoomAt(zoomAt - 1)}>
              Smaller
            </button>
            <button
              type="button"
              class="button"
              disabled={zoomAt === zooms.length - 1}
              onClick={() => setZoomAt(zoomAt + 1)}
            >
              Larger
            </button>
          </div>
          <MapPicture placed={placed} zoom={zooms[zoomAt]} harnessId={open.harness} />
          <p class="soft small">
            Thin line: the way there. Thick line: the way back. Dashed: what closes contacts. Tap a box or a wire for
            what is recorded of it.
          </p>
        </>
      )}
      {(placed !== null || hasFailed || answer.problem !== null) && <MoreQuestions address={target} except="map" />}
    </PageFrame>
  );
}

/** The largest zoom at which the drawing fits the page's width, if it can still be read then. */
function fittingZoom(width: number): number {
  const room = document.getElementById('main')?.clientWidth ?? 320;
  const fitting = zooms.findLastIndex((zoom) => zoom <= 1 && width * zoom <= room - 40);
  return Math.max(fitting, 1);
}
