/** What hostile and broken PDF files get: a sentence, and no waiting. */
import { deflateSync } from "node:zlib";
import { PDFDocument, PDFName, PDFNumber } from "pdf-lib";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { openPdf } from "./pdf.ts";

const latin = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** A file of these objects, the first of them its catalogue; written by hand after ISO 32000-1, 7.5. */
function fileOf(objects: readonly (string | { dictionary: string; data: Uint8Array })[]): Uint8Array {
  const parts: Buffer[] = [Buffer.from("%PDF-1.7\n")];
  for (const [index, object] of objects.entries()) {
    parts.push(Buffer.from(`${index + 1} 0 obj\n`));
    if (typeof object === "string") parts.push(Buffer.from(object));
    else {
      parts.push(Buffer.from(`<< ${object.dictionary} /Length ${object.data.length} >>\nstream\n`));
      parts.push(Buffer.from(object.data), Buffer.from("\nendstream"));
    }
    parts.push(Buffer.from("\nendobj\n"));
  }
  parts.push(Buffer.from("trailer << /Root 1 0 R >>\n%%EOF"));
  return new Uint8Array(Buffer.concat(parts));
}

const pageWith = (content: { dictionary: string; data: Uint8Array }, resources = "", box = "0 0 300 300"): Uint8Array =>
  fileOf([
    "<< /Type /Catalog /Pages 2 0 R >>",
    "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
    `<< /Type /Page /Parent 2 0 R /MediaBox [${box}] /Contents 4 0 R /Resources << ${resources} >> >>`,
    content,
  ]);

async function sentenceOf(bytes: Uint8Array): Promise<string> {
  const { value, problems } = await openPdf(bytes);
  if (!value) return problems.map(problemSentence).join(" ");
  const page = await value.primitives(1);
  value.close();
  return page.value ? `${page.value.shapes.length} shapes` : page.problems.map(problemSentence).join(" ");
}

describe("a PDF file that cannot be read is told in a sentence", () => {
  it("empty, or of another kind", async () => {
    expect(await sentenceOf(new Uint8Array())).toBe(
      "The PDF file: expected a PDF file, found an empty file; copy it once more.",
    );
    expect(await sentenceOf(latin("PK\x03\x04 a letter"))).toContain("found a file of another kind");
  });

  it("broken off: what is there is read, or it is said; never more than a moment", async () => {
    const document = await PDFDocument.create();
    document.addPage([300, 300]).drawRectangle({ x: 10, y: 10, width: 50, height: 50 });
    const whole = await document.save();
    for (const part of [0.2, 0.5, 0.8, 0.95])
      expect(await sentenceOf(whole.subarray(0, Math.floor(whole.length * part)))).toMatch(
        /damaged|damage|shapes|says it has/,
      );
    expect(await sentenceOf(latin("%PDF-1.7\nnothing of any use"))).toContain("one that breaks off or is damaged");
  });

  it("locked with a password", async () => {
    const id = "<00112233445566778899aabbccddeeff>";
    const key = `/O <${"41".repeat(32)}> /U <${"42".repeat(32)}>`;
    const text = new TextDecoder("latin1").decode(pageWith({ dictionary: "", data: latin("0 0 9 9 re f") }));
    const locked = text.replace("/Root 1 0 R", `/Root 1 0 R /ID [${id} ${id}] /Encrypt << /Filter /Standard /V 2 /R 3 /Length 128 /P -4 ${key} >>`); // prettier-ignore
    expect(await sentenceOf(latin(locked))).toContain("expected one that opens without a password");
  });

  it("with more pages than a book has", async () => {
    const count = 5001;
    const kids = Array.from({ length: count }, (_, index) => `${index + 3} 0 R`).join(" ");
    const page = "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 9 9] >>";
    const book = fileOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      `<< /Type /Pages /Kids [${kids}] /Count ${count} >>`,
      ...Array<string>(count).fill(page),
    ]);
    expect(await sentenceOf(book)).toContain("found one that says it has 5001");
  });

  it("with a page as large as a field", async () => {
    const text = await sentenceOf(pageWith({ dictionary: "", data: latin("0 0 9 9 re f") }, "", "0 0 99000 99000"));
    expect(text).toContain("Page 1: expected at most 14400 points");
  });
});

describe("a file that swells is given up", () => {
  it("when it is unpacked, once or twice over", async () => {
    const zeros = deflateSync(new Uint8Array(70_000_000), { level: 9 });
    expect(zeros.length).toBeLessThan(100_000);
    const told = "expected parts that unpack to at most 60 MB";
    expect(await sentenceOf(pageWith({ dictionary: "/Filter /FlateDecode", data: zeros }))).toContain(told);
    const twice = deflateSync(zeros, { level: 9 });
    expect(await sentenceOf(pageWith({ dictionary: "/Filter [/FlateDecode /FlateDecode]", data: twice }))).toContain(
      told,
    );
  });

  it("when its forms draw one another without end", async () => {
    const forms = 9;
    const form = (index: number): { dictionary: string; data: Uint8Array } => ({
      dictionary: `/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << /XObject << /F ${6 + index} 0 R >> >>`,
      data: latin(index === forms - 1 ? "0 0 1 1 re f ".repeat(10) : "/F Do ".repeat(12)),
    });
    const bytes = fileOf([
      "<< /Type /Catalog /Pages 2 0 R >>",
      "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
      "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 300 300] /Contents 4 0 R /Resources << /XObject << /F 5 0 R >> >> >>",
      { dictionary: "", data: latin("/F Do ".repeat(12)) },
      ...Array.from({ length: forms }, (_, index) => form(index)),
    ]);
    expect(await sentenceOf(bytes)).toBe(
      "Page 1: expected at most 3 million drawing orders, found more, so it was given up.",
    );
  }, 60_000);
});

it("nothing in a file is run, and no font is fetched for it", async () => {
  const document = await PDFDocument.create();
  const page = document.addPage([300, 300]);
  page.drawRectangle({ x: 10, y: 10, width: 50, height: 50 });
  const script = document.context.obj({
    S: PDFName.of("JavaScript"),
    JS: document.context.obj("app.alert(1)"),
  } as never);
  document.catalog.set(PDFName.of("OpenAction"), script);
  page.node.set(PDFName.of("UserUnit"), PDFNumber.of(1));
  expect(await sentenceOf(await document.save())).toBe("1 shapes");
});
