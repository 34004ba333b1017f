// The condition under which a module's output is on, as written: `IN1 & !IN2 | (KL15 & IN3)`. Parse, name its terminals, evaluate.
// It must not know volts: a value is already true or false.

export type Expression =
  | { readonly kind: 'terminal'; readonly name: string }
  | { readonly kind: 'not'; readonly of: Expression }
  | { readonly kind: 'and' | 'or'; readonly left: Expression; readonly right: Expression };

export type ParsedExpression =
  | { readonly ok: true; readonly expression: Expression }
  | { readonly ok: false; readonly reason: string };

export const EXPRESSION_ACCEPTED =
  'terminals of inputs and supplies joined by & (and), | (or), ! (not) and parentheses';

const DEEPEST = 60;
const TOKEN = /\s*(?:([A-Za-z0-9][A-Za-z0-9+_-]*)|([&|!()])|(\S))/y;

/** `!` binds before `&`, `&` before `|`. `&&` and `||` are read as `&` and `|`. */
export function parseExpression(text: string): ParsedExpression {
  const tokens = tokenise(text.replaceAll('&&', '&').replaceAll('||', '|'));
  if (typeof tokens === 'string') return { ok: false, reason: tokens };
  let at = 0;
  let depth = 0;

  function or(): Expression {
    let left = and();
    while (tokens[at] === '|') {
      at += 1;
      left = { kind: 'or', left, right: and() };
    }
    return left;
  }

  function and(): Expression {
    let left = not();
    while (tokens[at] === '&') {
      at += 1;
      left = { kind: 'and', left, right: not() };
    }
    return left;
  }

  function not(): Expression {
    depth += 1;
    if (depth > DEEPEST) throw new SyntaxError('nested too deeply');
    const result = tokens[at] === '!' ? negated() : single();
    depth -= 1;
    return result;
  }

  function negated(): Expression {
    at += 1;
    return { kind: 'not', of: not() };
  }

  function single(): Expression {
    const token = tokens[at];
    at += 1;
    if (token === undefined) throw new SyntaxError('ends where a terminal is expected');
    if (token === '(') {
      const inside = or();
      if (tokens[at] !== ')') throw new SyntaxError('a parenthesis is not closed');
      at += 1;
      return inside;
    }
    if ('&|)'.includes(token)) throw new SyntaxError(`a terminal is expected before ${token}`);
    return { kind: 'terminal', name: token };
  }

  try {
    const expression = or();
    if (at < tokens.length) return { ok: false, reason: `${tokens[at]} is not expected after ${tokens[at - 1]}` };
    return { ok: true, expression };
  } catch (error) {
    if (error instanceof SyntaxError) return { ok: false, reason: error.message };
    throw error;
  }
}

/** Terminals that an expression names, each once, in order. */
export function terminalsIn(expression: Expression): readonly string[] {
  switch (expression.kind) {
    case 'terminal':
      return [expression.name];
    case 'not':
      return terminalsIn(expression.of);
    case 'and':
    case 'or':
      return [...new Set([...terminalsIn(expression.left), ...terminalsIn(expression.right)])];
  }
}

/** Value of an expression; `isTrue` says of each terminal whether it is at its active level (a supply: whether it is live). */
export function evaluate(expression: Expression, isTrue: (terminal: string) => boolean): boolean {
  switch (expression.kind) {
    case 'terminal':
      return isTrue(expression.name);
    case 'not':
      return !evaluate(expression.of, isTrue);
    case 'and':
      return evaluate(expression.left, isTrue) && evaluate(expression.right, isTrue);
    case 'or':
      return evaluate(expression.left, isTrue) || evaluate(expression.right, isTrue);
  }
}

/** The expression written out again, with parentheses only where needed. */
export function expressionText(expression: Expression): string {
  switch (expression.kind) {
    case 'terminal':
      return expression.name;
    case 'not':
      return expression.of.kind === 'terminal' ? `!${expression.of.name}` : `!(${expressionText(expression.of)})`;
    case 'and':
      return [expression.left, expression.right]
        .map((side) => (side.kind === 'or' ? `(${expressionText(side)})` : expressionText(side)))
        .join(' & ');
    case 'or':
      return `${expressionText(expression.left)} | ${expressionText(expression.right)}`;
  }
}

/** The same expression with its terminals spelled by `spelling`. */
export function renameTerminals(expression: Expression, spelling: (name: string) => string): Expression {
  switch (expression.kind) {
    case 'terminal':
      return { kind: 'terminal', name: spelling(expression.name) };
    case 'not':
      return { kind: 'not', of: renameTerminals(expression.of, spelling) };
    case 'and':
    case 'or':
      return {
        kind: expression.kind,
        left: renameTerminals(expression.left, spelling),
        right: renameTerminals(expression.right, spelling),
      };
  }
}

function tokenise(text: string): readonly string[] | string {
  const tokens: string[] = [];
  TOKEN.lastIndex = 0;
  const trimmed = text.trim();
  while (TOKEN.lastIndex < trimmed.length) {
    const match = TOKEN.exec(trimmed);
    if (match === null) break;
    if (match[3] !== undefined) return `${match[3]} means nothing here`;
    tokens.push(match[1] ?? match[2] ?? '');
  }
  return tokens.length === 0 ? 'empty' : tokens;
}
