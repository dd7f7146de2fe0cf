/** Keeps the work in the browser's own database, says when it was last kept, and in a sentence when it cannot be. */
import { IndexeddbPersistence } from "y-indexeddb";
import * as Y from "yjs";

export type Kept =
  | { readonly state: "opening" }
  | { readonly state: "writing" }
  | { readonly state: "kept"; readonly at: Date | null }
  | { readonly state: "unkept"; readonly sentence: string };

const DATABASE = "twostrand-bench";
/** Some private windows neither open a database nor refuse it; after this long she is told instead of kept waiting. */
const PATIENCE_MS = 4000;
const UNKEPT =
  "This browser does not let the page keep anything, so your work lives in this tab only: save it to a file.";
const FULL = "The browser had no room to keep the last change: save your work to a file.";

/** Reads what was kept into the document and keeps every change from then on. Resolves when reading is done or has failed. */
export async function keepDocument(document: Y.Doc, onChange: (kept: Kept) => void): Promise<void> {
  if (!(await storageOpens())) {
    onChange({ state: "unkept", sentence: UNKEPT });
    return;
  }
  const persistence = new IndexeddbPersistence(DATABASE, document);
  await persistence.whenSynced;
  shareBetweenTabs(document);
  onChange({ state: "kept", at: null });
  let latest = 0;
  document.on("update", (_update: Uint8Array, origin: unknown) => {
    if (origin === persistence) return;
    const own = ++latest;
    onChange({ state: "writing" });
    written(persistence.db!).then(
      () => own === latest && onChange({ state: "kept", at: new Date() }),
      () => onChange({ state: "unkept", sentence: FULL }),
    );
  });
}

/** Write transactions on one store run in order: when this one has ended, the one before it is on the disk. */
function written(database: IDBDatabase): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(["updates", "custom"], "readwrite", { durability: "strict" });
    transaction.objectStore("custom").put(new Date().toISOString(), "kept");
    transaction.oncomplete = () => resolve();
    transaction.onabort = transaction.onerror = () => reject(transaction.error);
  });
}

function storageOpens(): Promise<boolean> {
  return new Promise((resolve) => {
    const timer = setTimeout(() => resolve(false), PATIENCE_MS);
    const end = (opens: boolean) => {
      clearTimeout(timer);
      resolve(opens);
    };
    try {
      const request = indexedDB.open(`${DATABASE}-probe`);
      request.onsuccess = () => {
        request.result.close();
        indexedDB.deleteDatabase(`${DATABASE}-probe`);
        end(true);
      };
      request.onerror = () => end(false);
    } catch {
      end(false);
    }
  });
}

/** Two tabs on one bench would otherwise each show an old state until the next start. */
function shareBetweenTabs(document: Y.Doc): void {
  if (typeof BroadcastChannel === "undefined") return;
  const channel = new BroadcastChannel(DATABASE);
  document.on("update", (update: Uint8Array, origin: unknown) => {
    if (origin !== channel) channel.postMessage(update);
  });
  channel.onmessage = ({ data }) => Y.applyUpdate(document, new Uint8Array(data as Uint8Array), channel);
}
