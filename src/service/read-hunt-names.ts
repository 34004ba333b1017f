// The names in a reported symptom and in an answered check, read against the graph as those of a question are.
// It must not judge what was seen; a name that is refused is told by the reader.

import type { Check } from '../core/diagnosis/shapes/check.js';
import type { Symptom } from '../core/diagnosis/shapes/symptom.js';
import type { QuestionReader } from './question-reader.js';

/** The symptom with canonical names. Call `finish` on the reader before it is used. */
export function readSymptom(reader: QuestionReader, at: string, symptom: Symptom): Symptom {
  reader.state(symptom.state);
  switch (symptom.kind) {
    case 'function':
      return { ...symptom, function: functionId(reader, `${at}/function`, symptom.function) };
    case 'fuse-found-blown':
    case 'fuse-blows':
      return { ...symptom, fuse: reader.part(`${at}/fuse`, symptom.fuse) };
    case 'relay':
      return { ...symptom, relay: reader.part(`${at}/relay`, symptom.relay) };
    case 'battery-flat':
      return { ...symptom, battery: reader.part(`${at}/battery`, symptom.battery) };
    case 'hot':
      return { ...symptom, part: reader.part(`${at}/part`, symptom.part) };
  }
}

/** The check with canonical names, as `readSymptom`. */
export function readCheckNames(reader: QuestionReader, at: string, check: Check): Check {
  if ('state' in check) reader.state(check.state);
  const point = (field: string, text: string): string => reader.point(`${at}/${field}`, text);
  switch (check.kind) {
    case 'observe':
      return { ...check, function: functionId(reader, `${at}/function`, check.function) };
    case 'volts': {
      const newFuse = check.newFuse === undefined ? {} : { newFuse: reader.part(`${at}/newFuse`, check.newFuse) };
      return { ...check, ...newFuse, red: point('red', check.red), black: point('black', check.black) };
    }
    case 'lamp':
      return { ...check, red: point('red', check.red), black: point('black', check.black) };
    case 'clamp':
      return { ...check, wire: reader.conductor(`${at}/wire`, check.wire) };
    case 'ohms':
      reader.elements(`${at}/elements`, check.elements);
      return { ...check, red: point('red', check.red), black: point('black', check.black) };
    case 'isolation':
      reader.elements(`${at}/elements`, check.elements);
      return { ...check, point: point('point', check.point), body: point('body', check.body) };
    case 'look':
      return { ...check, fuse: reader.part(`${at}/fuse`, check.fuse) };
    case 'inspect':
      return { ...check, part: reader.part(`${at}/part`, check.part) };
    case 'swap':
      return {
        ...check,
        part: reader.part(`${at}/part`, check.part),
        function: functionId(reader, `${at}/function`, check.function),
      };
    case 'link':
      return {
        ...check,
        from: point('from', check.from),
        to: point('to', check.to),
        function: functionId(reader, `${at}/function`, check.function),
      };
    case 'wiggle':
      reader.elements(`${at}/elements`, check.elements);
      return {
        ...check,
        part: reader.part(`${at}/part`, check.part),
        function: functionId(reader, `${at}/function`, check.function),
      };
  }
}

function functionId(reader: QuestionReader, path: string, text: string): string {
  return reader.function(path, text)?.id ?? text;
}
