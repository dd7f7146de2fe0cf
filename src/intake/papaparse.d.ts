/** What tableRows.ts uses of papaparse. Its published types bring in Node, which the domain must not see. */
declare module "papaparse" {
  interface Step {
    data: string[];
    errors: { type: string; code: string; message: string }[];
    meta: { cursor: number };
  }
  interface Settings {
    delimiter: string;
    quoteChar: string;
    /** Rows at most; 0 for all. */
    preview: number;
    step: (result: Step, parser: { abort(): void }) => void;
  }
  const papaparse: { parse(text: string, settings: Settings): void };
  export default papaparse;
}
