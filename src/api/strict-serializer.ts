// Turns an answer into text after holding it to its schema: a key too many is refused like one too few, never trimmed in silence.
// It must not repair anything.

import { createSerializerCompiler } from 'fastify-type-provider-zod';

type Compiler = ReturnType<typeof createSerializerCompiler>;

/**
 * Frozen values are checked and written once and their text is kept as long as they live: an answer asked for again costs no more
 * than its bytes. Whoever freezes a value says that nothing in it will change.
 */
export function strictSerializer(): Compiler {
  const compile = createSerializerCompiler({});
  return (route) => {
    const serialise = compile(route);
    const texts = new WeakMap<object, string>();
    return (value) => {
      if (typeof value !== 'object' || value === null || !Object.isFrozen(value)) return serialise(value);
      const known = texts.get(value);
      if (known !== undefined) return known;
      const text = serialise(value);
      texts.set(value, text);
      return text;
    };
  };
}
