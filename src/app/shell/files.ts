/** Project files of hers: written as a download, read from what she picks. */
import { problemSentence, type Outcome } from "../../base/problem.ts";
import type { Project } from "../../document/project.ts";
import { quickJobs } from "../worker/client.ts";
import type { Message } from "./bench.ts";

/** A file that holds this much text is none of ours, and reading it would only stall the page. 64 MB, our choice. */
const LONGEST_FILE = 64_000_000;

/** At most so many sentences at once; the rest are counted. */
const MOST_SENTENCES = 8;

export interface OpenedFile<Kind> {
  readonly value: Kind | null;
  readonly message: Message | null;
}

export const openProjectFile = (file: File): Promise<OpenedFile<Project>> =>
  openFile(file, (text) => quickJobs().read(text), {
    kind: "project",
    unharmed: "What is on the bench has stayed as it was.",
  });

/** Reads one of her files; what cannot be read is told, with what has stayed unharmed. */
export async function openFile<Kind>(
  file: File,
  read: (text: string) => Outcome<Kind> | Promise<Outcome<Kind>>,
  words: { readonly kind: string; readonly unharmed: string },
): Promise<OpenedFile<Kind>> {
  const refused = (sentences: readonly string[]): OpenedFile<Kind> => ({
    value: null,
    message: { title: `${file.name} was not opened`, sentences: [...sentences, words.unharmed] },
  });
  if (file.size > LONGEST_FILE) return refused([`The file is larger than any ${words.kind}: more than 64 MB.`]);
  let text: string;
  try {
    text = await file.text();
  } catch {
    return refused(["The browser could not read the file; it may have been moved or changed meanwhile."]);
  }
  const { value, problems } = await read(text);
  const sentences = problems.slice(0, MOST_SENTENCES).map(problemSentence);
  if (problems.length > MOST_SENTENCES) sentences.push(`And ${problems.length - MOST_SENTENCES} more.`);
  if (!value) return refused(sentences);
  return {
    value,
    message: sentences.length > 0 ? { title: `${file.name} is open, with remarks`, sentences } : null,
  };
}

export async function saveProjectFile(project: Project): Promise<string> {
  const name = `${fileStem(project.name)}.twostrand.json`;
  download(name, new Blob([await quickJobs().write(project)], { type: "application/json" }));
  return name;
}

/** Letters and figures of any script, joined by hyphens, so that every system takes the name. */
export function fileStem(name: string): string {
  const words = name.toLowerCase().match(/[\p{L}\p{N}]+/gu);
  return words ? words.join("-").slice(0, 60) : "project";
}

export function download(name: string, blob: Blob): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the blob after the click has returned; a minute is more than it needs.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
