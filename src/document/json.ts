/** Reads JSON text and, where it is none, says in which line and column and what was expected there. */
import type { Outcome, Problem } from "../base/problem.ts";

/** Far deeper than any field of ours; beyond it a file is an attack on the program's stack. Our choice. */
const DEEPEST = 100;

export function readJson(source: string): Outcome<unknown> {
  const text = source.startsWith("\uFEFF") ? source.slice(1) : source;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { value: null, problems: [syntaxProblem(text)] };
  }
  if (deeperThan(value, DEEPEST)) {
    const problem: Problem = {
      where: "the file",
      expected: `objects and lists nested at most ${DEEPEST} deep`,
      got: "deeper ones",
      severity: "fault",
    };
    return { value: null, problems: [problem] };
  }
  return { value, problems: [] };
}

/** Walks with a list of its own: the call stack is what a deep file would break. */
function deeperThan(value: unknown, depth: number): boolean {
  let level: unknown[] = [value];
  for (let passed = 0; level.length > 0; passed++) {
    if (passed > depth) return true;
    level = level.flatMap((item) => (typeof item === "object" && item !== null ? Object.values(item) : []));
  }
  return false;
}

interface Stop {
  readonly at: number;
  readonly expected: string;
}

/**
 * Where the first mistake is. The platforms' own messages differ and some give no position, so the text is read
 * again by RFC 8259, with a list of the open brackets in place of calls, and stops at the first thing out of order.
 */
function firstMistake(text: string): Stop {
  const open: ("{" | "[")[] = [];
  let at = 0;
  let next: "value" | "firstItem" | "firstName" | "name" | "after" = "value";
  const space = /[ \t\n\r]*/y;
  const escape = /\\(?:["\\/bfnrt]|u[0-9A-Fa-f]{4})/y;
  const scalar = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;
  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  /** Passes a text in quotes; by hand, because a pattern's own stack would not hold one of many megabytes. */
  const takeString = (): Stop | null => {
    for (at++; at < text.length && text[at]! >= " " && text[at] !== '"'; at++) {
      if (text[at] !== "\\") continue;
      escape.lastIndex = at;
      if (!escape.test(text)) return { at, expected: 'one of \\" \\\\ \\/ \\b \\f \\n \\r \\t or \\u and four digits' };
      at = escape.lastIndex - 1;
    }
    if (text[at] !== '"') return { at, expected: 'a quote " that ends the text' };
    at++;
    return null;
  };
  for (;;) {
    take(space);
    const character = text[at];
    if (next === "after") {
      const around = open.at(-1);
      if (around === undefined) return { at, expected: "the end of the file" };
      if (character === (around === "{" ? "}" : "]")) {
        open.pop();
        at++;
      } else if (character === ",") {
        at++;
        next = around === "{" ? "name" : "value";
      } else return { at, expected: around === "{" ? '"," or "}"' : '"," or "]"' };
    } else if (next === "name" || next === "firstName") {
      if (next === "firstName" && character === "}") {
        open.pop();
        at++;
        next = "after";
        continue;
      }
      if (character !== '"') return { at, expected: 'a name in quotes "' };
      const bad = takeString();
      if (bad) return bad;
      take(space);
      if (text[at] !== ":") return { at, expected: '":"' };
      at++;
      next = "value";
    } else {
      if (next === "firstItem" && character === "]") {
        open.pop();
        at++;
        next = "after";
      } else if (character === "{" || character === "[") {
        open.push(character);
        at++;
        next = character === "{" ? "firstName" : "firstItem";
      } else if (character === '"') {
        const bad = takeString();
        if (bad) return bad;
        next = "after";
      } else if (take(scalar)) next = "after";
      else return { at, expected: "a value" };
    }
  }
}

function syntaxProblem(text: string): Problem {
  const { at, expected } = firstMistake(text);
  const before = text.slice(0, at).split("\n");
  const line = before.length;
  const column = before.at(-1)!.length + 1;
  const character = text.codePointAt(at);
  const got =
    character === undefined
      ? "the end of the file"
      : character === 10 || character === 13
        ? "the end of the line"
        : JSON.stringify(String.fromCodePoint(character));
  return { where: `line ${line}, column ${column}`, expected, got, severity: "fault", line };
}
