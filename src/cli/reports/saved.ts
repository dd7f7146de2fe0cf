/** What commands that make a file tell people. */
import { paragraph } from "../words.ts";

export const savedReport = (file: string, what: string): string => paragraph(`Written to ${file}: ${what}.`);
