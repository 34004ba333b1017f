/**
 * Names of states that nobody recorded: a recorded one, and what the hands do besides.
 * It must not make the state.
 */

/** As long as a name fits on a card. */
const LONGEST_NAME = 60;

/** `Dip, X11 pulled`; of a long name the end gives way, never what the hands do. */
export function nameWith(main: string, told: string): string {
  const added = `, ${told}`;
  return `${main.slice(0, Math.max(0, LONGEST_NAME - added.length))}${added}`.slice(0, LONGEST_NAME);
}
