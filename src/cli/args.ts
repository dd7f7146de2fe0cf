/** Reads a command's arguments; every wrong one is told with what was expected and, where one is near, what may be meant. */
import { parseArgs } from "node:util";
import { COMMON_OPTIONS, type Command } from "./command.ts";
import { EXIT, Refusal } from "./io.ts";
import { nearestWord } from "./nearest.ts";

/** What was given to a command: asked for by name, checked when it is asked for. */
export interface Given {
  readonly operand: (index: number) => string;
  readonly optionalOperand: (index: number) => string | undefined;
  /** All of them, for a command whose last one may be given again and again. */
  readonly operands: () => readonly string[];
  readonly flag: (name: string) => boolean;
  readonly text: (name: string) => string | undefined;
  /** Every value of an option that may be given again, in order. */
  readonly texts: (name: string) => readonly string[];
  readonly number: (name: string, limits: Limits) => number | undefined;
  readonly choice: <T extends string>(name: string, choices: readonly T[]) => T | undefined;
}

export interface Limits {
  readonly least?: number;
  readonly most?: number;
  /** The least itself is not allowed. */
  readonly above?: number;
  readonly whole?: true;
}

/** Throws a Refusal with code 64. */
export function readArguments(command: Command, argv: readonly string[]): Given {
  const options = { ...command.options, ...COMMON_OPTIONS };
  const { tokens, positionals } = parseArgs({
    args: [...argv],
    options: Object.fromEntries(
      Object.entries(options).map(([name, { value }]) => [name, { type: value ? "string" : "boolean" } as const]),
    ),
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const values = new Map<string, string>();
  const lists = new Map<string, string[]>();
  const wrong = (sentence: string): Refusal =>
    new Refusal(EXIT.usage, `${sentence}\nTry: twostrand ${command.name} --help`);
  for (const token of tokens) {
    if (token.kind !== "option") continue;
    const { name, rawName, value } = token;
    const spec = Object.hasOwn(options, name) ? options[name] : undefined;
    if (!spec || !rawName.startsWith("--")) {
      const near = nearestWord(name, Object.keys(options));
      throw wrong(`${command.name} has no option ${rawName}.${near ? ` Did you mean --${near}?` : ""}`);
    }
    if (values.has(name) && !spec.many) throw wrong(`${rawName} was given twice.`);
    if (!spec.value && value !== undefined) throw wrong(`${rawName} takes no value, found ${JSON.stringify(value)}.`);
    if (spec.value && (value === undefined || value === "" || isOptionName(value, options)))
      throw wrong(`${rawName}: expected ${spec.value}, found ${value ? value : "nothing"}.`);
    values.set(name, value ?? "");
    lists.set(name, [...(lists.get(name) ?? []), value ?? ""]);
  }
  if (!values.has("help")) checkAllThere(command, positionals, values, wrong);
  return givenFrom(positionals, values, lists, wrong);
}

const isOptionName = (value: string, options: object): boolean =>
  value.startsWith("--") && Object.hasOwn(options, value.slice(2).split("=")[0]!);

function checkAllThere(
  command: Command,
  positionals: readonly string[],
  values: ReadonlyMap<string, string>,
  wrong: (sentence: string) => Refusal,
): void {
  const missing = command.operands.find(({ required }, index) => required && positionals[index] === undefined);
  if (missing) throw wrong(`${command.name}: expected ${missing.name}, found nothing.`);
  const extra = positionals[command.operands.length];
  if (extra !== undefined && !command.operands.at(-1)?.many)
    throw wrong(`${command.name}: expected no more than that, found ${JSON.stringify(extra)}.`);
  for (const [name, { required, value }] of Object.entries(command.options))
    if (required && !values.has(name)) throw wrong(`${command.name}: expected --${name} ${value}, found nothing.`);
}

function givenFrom(
  positionals: readonly string[],
  values: ReadonlyMap<string, string>,
  lists: ReadonlyMap<string, readonly string[]>,
  wrong: (sentence: string) => Refusal,
): Given {
  return {
    operand: (index) => positionals[index]!,
    optionalOperand: (index) => positionals[index],
    operands: () => positionals,
    flag: (name) => values.has(name),
    text: (name) => values.get(name),
    texts: (name) => lists.get(name) ?? [],
    number: (name, limits) => {
      const text = values.get(name);
      if (text === undefined) return undefined;
      const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : NaN;
      if (isWithin(value, limits)) return value;
      throw wrong(`--${name}: expected ${limitWords(limits)}, found ${JSON.stringify(text)}.`);
    },
    choice: (name, choices) => {
      const text = values.get(name);
      if (text === undefined) return undefined;
      const found = choices.find((choice) => choice.toLowerCase() === text.toLowerCase());
      if (found) return found;
      const near = nearestWord(text, choices);
      const hint = near ? ` Did you mean ${near}?` : "";
      throw wrong(`--${name}: expected ${choices.join(", ")}, found ${JSON.stringify(text)}.${hint}`);
    },
  };
}

const isWithin = (value: number, { least, most, above, whole }: Limits): boolean =>
  Number.isFinite(value) &&
  (least === undefined || value >= least) &&
  (above === undefined || value > above) &&
  (most === undefined || value <= most) &&
  (!whole || Number.isInteger(value));

function limitWords({ least, most, above, whole }: Limits): string {
  const kind = whole ? "a whole number" : "a number";
  if (least !== undefined && most !== undefined) return `${kind} between ${least} and ${most}`;
  const lower = above !== undefined ? ` above ${above}` : least !== undefined ? ` of ${least} or more` : "";
  return `${kind}${lower}${most !== undefined ? ` up to ${most}` : ""}`;
}
