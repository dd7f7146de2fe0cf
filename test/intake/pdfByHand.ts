/** PDF files of one page, written object by object after ISO 32000-1, 7.5, so that a test says every order in them. */

export interface PdfPart {
  readonly name: string;
  /** What stands between its brackets, its length left out. */
  readonly dictionary: string;
  /** Absent where it is a dictionary alone. */
  readonly data?: Uint8Array;
}

/** A file of these objects, the first of them its catalogue. */
export function pdfOfObjects(objects: readonly (string | Omit<PdfPart, "name">)[]): Uint8Array {
  const parts: Buffer[] = [Buffer.from("%PDF-1.7\n")];
  for (const [index, object] of objects.entries()) {
    parts.push(Buffer.from(`${index + 1} 0 obj\n`));
    if (typeof object === "string") parts.push(Buffer.from(object));
    else if (!object.data) parts.push(Buffer.from(`<< ${object.dictionary} >>`));
    else {
      parts.push(Buffer.from(`<< ${object.dictionary} /Length ${object.data.length} >>\nstream\n`));
      parts.push(Buffer.from(object.data), Buffer.from("\nendstream"));
    }
    parts.push(Buffer.from("\nendobj\n"));
  }
  parts.push(Buffer.from("trailer << /Root 1 0 R >>\n%%EOF"));
  return new Uint8Array(Buffer.concat(parts));
}

/** A page of 500 × 400 points with this content and these things of each kind to draw with. */
export function pdfOfContent(
  content: string,
  resources: Readonly<Record<string, readonly PdfPart[]>> = {},
): Uint8Array {
  const all = Object.entries(resources).flatMap(([kind, parts]) => parts.map((part) => ({ kind, part })));
  const named = Object.keys(resources).map((kind) => {
    const own = all.flatMap((one, index) => (one.kind === kind ? [`/${one.part.name} ${index + 5} 0 R`] : []));
    return `/${kind} << ${own.join(" ")} >>`;
  });
  return pdfOfObjects([
    "<< /Type /Catalog /Pages 2 0 R >>",
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 500 400] /Contents 4 0 R /Resources << ${named.join(" ")} >> >>`,
    { dictionary: "", data: Uint8Array.from(Buffer.from(content)) },
    ...all.map(({ part }) => part),
  ]);
}
