/** What comes with the PDF library beside its code, as addresses of our own files. */
declare module "*.pfb?url" {
  const address: string;
  export default address;
}
declare module "pdfjs-dist/standard_fonts/*.ttf?url" {
  const address: string;
  export default address;
}
declare module "pdfjs-dist/wasm/*.wasm?url" {
  const address: string;
  export default address;
}
declare module "pdfjs-dist/legacy/build/pdf.min.mjs" {
  export const OPS: Readonly<Record<string, number>>;
  export const getDocument: (options: Record<string, unknown>) => never;
}
declare module "pdfjs-dist/legacy/build/pdf.worker.min.mjs" {
  export const WorkerMessageHandler: unknown;
}
