#!/usr/bin/env node
/** The command line: a command's arguments in, its answer out, and an exit code that programs can rely on. */
import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { problemSentence } from "../base/problem.ts";
import { readArguments } from "./args.ts";
import type { Answer, Command } from "./command.ts";
import { COMMANDS } from "./commands.ts";
import { commandHelp, programHelp } from "./help.ts";
import { EXIT, Refusal, type ExitCode, type Io } from "./io.ts";
import { nearestWord } from "./nearest.ts";
import { plain } from "./words.ts";

/** Runs one command; `argv` is what follows the program's name. Never throws. */
export async function main(argv: readonly string[], io: Io): Promise<ExitCode> {
  try {
    const [name, ...rest] = argv;
    if (name === undefined) throw new Refusal(EXIT.usage, programHelp(COMMANDS).trimEnd());
    if (name === "--help" || name === "-h" || (name === "help" && rest.length === 0)) {
      io.out(programHelp(COMMANDS));
      return EXIT.done;
    }
    const [wanted, given] = name === "help" ? [rest[0]!, ["--help"]] : [name, rest];
    return await runCommand(commandNamed(wanted), given, io);
  } catch (error) {
    if (error instanceof Refusal) {
      io.err(`${error.message.split("\n").map(printable).join("\n")}\n`);
      return error.code;
    }
    const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
    io.err(`This is a mistake in the program, not in what you gave it. Nothing was changed.\n${trace}\n`);
    return EXIT.ourFault;
  }
}

/** A file's or an option's name may hold anything, indents must stay. */
const printable = (line: string): string => /^\s*/.exec(line)![0] + plain(line.trimStart());

function commandNamed(name: string): Command {
  const command = COMMANDS.find((candidate) => candidate.name === name);
  if (command) return command;
  const near = nearestWord(
    name,
    COMMANDS.map((candidate) => candidate.name),
  );
  const hint = near ? `Did you mean ${near}?` : "Try: twostrand --help";
  throw new Refusal(EXIT.usage, `There is no command ${JSON.stringify(name)}. ${hint}`);
}

async function runCommand(command: Command, argv: readonly string[], io: Io): Promise<ExitCode> {
  const given = readArguments(command, argv);
  if (given.flag("help")) {
    io.out(commandHelp(command));
    return EXIT.done;
  }
  const answer = await command.run(given, io);
  tellProblems(answer, io);
  io.out(given.flag("json") ? jsonText(answer.json) : `${answer.text().trimEnd()}\n`);
  return answer.code ?? EXIT.done;
}

function tellProblems({ problems }: Answer, io: Io): void {
  for (const problem of problems ?? []) io.err(`${problem.severity}: ${plain(problemSentence(problem))}\n`);
}

/** The C1 control characters are legal in JSON and yet drive some terminals. */
const jsonText = (value: unknown): string =>
  `${JSON.stringify(value, null, 2).replace(/[\u007f-\u009f]/g, (character) => `\\u00${character.charCodeAt(0).toString(16)}`)}\n`;

/** True where this file is what Node was asked to run, through a link or not. */
function isProgram(): boolean {
  try {
    return realpathSync(process.argv[1] ?? "") === fileURLToPath(import.meta.url);
  } catch {
    return false;
  }
}

if (isProgram()) {
  // A reader that has seen enough (head, a closed pager) is no fault of ours.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
  });
  const io: Io = {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    now: () => performance.now(),
  };
  // Not awaited: parts that are loaded later wait for this file, which must not wait for them.
  void main(process.argv.slice(2), io).then((code) => (process.exitCode = code));
}
