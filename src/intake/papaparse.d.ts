/** What stashTable.ts uses of papaparse. Its published types bring in Node, which the domain must not see. */
declare module "papaparse" {
  interface Step {
    data: string[];
    errors: { type: string; code: string; message: string }[];
    meta: { cursor: number };
  }
  interface Settings {
    delimiter: string;
    quoteChar: string;
    step: (result: Step) => void;
  }
  const papaparse: { parse(text: string, settings: Settings): void };
  export default papaparse;
}
