/** What a command is: its words for people, what it may be given, and a body that calls jobs. */
import type { Given } from "./args.ts";
import type { ExitCode, Io } from "./io.ts";
import type { Problem } from "../base/problem.ts";

export interface OptionSpec {
  /** What stands after the name in the help, "FILE"; without it the option is a flag. */
  readonly value?: string;
  readonly help: string;
  readonly required?: true;
  /** May be given more than once. */
  readonly many?: true;
}

export interface OperandSpec {
  readonly name: string;
  readonly required: boolean;
  /** The last one may be given again and again. */
  readonly many?: true;
}

export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** What it takes beside options, in order. */
  readonly operands: readonly OperandSpec[];
  readonly options: Readonly<Record<string, OptionSpec>>;
  readonly example: string;
  /** More that she should know, in paragraphs. */
  readonly details?: readonly string[];
  readonly run: (given: Given, io: Io) => Promise<Answer> | Answer;
}

export interface Answer {
  /** What `--json` prints. */
  readonly json: unknown;
  /** What people read; made only when it is wanted. */
  readonly text: () => string;
  readonly problems?: readonly Problem[];
  readonly code?: ExitCode;
}

/** Options that every command has. */
export const COMMON_OPTIONS: Readonly<Record<string, OptionSpec>> = {
  json: { help: "one JSON value on standard output, nothing else" },
  help: { help: "this page" },
};

/** For commands that write a file. */
export const WRITE_OPTIONS = {
  force: { help: "replace a file that is already there and differs" },
} as const satisfies Record<string, OptionSpec>;

export const COLOURWAY_OPTION = {
  colourway: { value: "ID", help: "which colourway; the first by default" },
} as const satisfies Record<string, OptionSpec>;

export const SEEING_OPTIONS = {
  distance: { value: "M", help: "metres from which it is looked at; 1.5 by default" },
  light: { value: "LUX", help: "light of the room; 500 by default" },
} as const satisfies Record<string, OptionSpec>;

/** Options of commands that can look with a colour-deficient eye. */
export const DEFICIENCY_OPTIONS = {
  deficiency: { value: "KIND", help: "as a protan, deutan or tritan eye sees it" },
  severity: { value: "0..1", help: "how far the deficiency goes; 1 by default" },
} as const satisfies Record<string, OptionSpec>;
