/** The help pages, made from what each command says of itself. */
import { COMMON_OPTIONS, type Command } from "./command.ts";
import { paragraph, WIDTH } from "./words.ts";

export function commandHelp(command: Command): string {
  const operands = command.operands.map(({ name, required, many }) => {
    const words = many ? `${name}...` : name;
    return required ? words : `[${words}]`;
  });
  const required = Object.entries(command.options).flatMap(([name, spec]) =>
    spec.required ? [`--${name} ${spec.value}`] : [],
  );
  const usage = ["twostrand", command.name, ...operands, ...required, "[options]"].join(" ");
  const options = Object.entries({ ...command.options, ...COMMON_OPTIONS }).map(([name, { value, help }]) =>
    entry(`--${name}${value ? ` ${value}` : ""}`, help),
  );
  return `${[
    paragraph(command.summary),
    `Usage: ${usage}`,
    options.join("\n"),
    ...(command.details ?? []).map((details) => paragraph(details)),
    `Example:\n${shellLines(command.example)}`,
  ].join("\n\n")}\n`;
}

export function programHelp(commands: readonly Command[]): string {
  return `${[
    paragraph(
      "Twostrand plans the colours of a stranded-colourwork garment: how her yarn will look knitted into a pattern.",
    ),
    "Usage: twostrand COMMAND [options]",
    commands.map(({ name, summary }) => entry(name, summary)).join("\n"),
    "Help on one command: twostrand COMMAND --help",
    paragraph(
      "Exit codes: 0 done, 1 done with a finding at or above --fail-on, 64 wrong usage, 65 bad input, 66 cannot read, 73 cannot write, 70 a mistake in the program.",
    ),
    "Example:\n  twostrand check vest.twostrand.json",
  ].join("\n\n")}\n`;
}

/** A name with its explanation beside it, or below where the name is long. */
function entry(name: string, help: string): string {
  const column = 24;
  const label = `  ${name}`;
  if (label.length + 2 > column) return `${label}\n${paragraph(help, " ".repeat(column))}`;
  return paragraph(help, label.padEnd(column));
}

/** A command in as many lines as it takes, each but the last ended so that a shell reads on. */
function shellLines(command: string): string {
  const [first, ...options] = command.split(/ (?=--)/);
  const lines = [`  ${first}`];
  for (const option of options) {
    const line = `${lines.at(-1)} ${option}`;
    // Two columns are kept for the sign that the command goes on.
    if (line.length <= WIDTH - 2) lines[lines.length - 1] = line;
    else lines.push(`    ${option}`);
  }
  return lines.join(" \\\n");
}
