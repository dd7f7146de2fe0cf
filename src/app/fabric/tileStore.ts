/** Pictures of parts of the cloth, asked for as they come into view and kept until the room is needed. */

export interface TileRequest {
  readonly key: string;
  readonly ask: () => Promise<{ width: number; height: number; rgba: Uint8ClampedArray<ArrayBuffer> }>;
}

interface Kept {
  readonly picture: ImageBitmap;
  readonly pixels: number;
}

/** Pixels kept at four bytes each: about 100 MB, so that a tab stays far below its 600. */
const MOST_PIXELS = 25_000_000;

export interface TileStore {
  readonly find: (key: string) => ImageBitmap | undefined;
  /** What is in view now; whatever was wanted before and not begun is forgotten. */
  readonly want: (requests: readonly TileRequest[]) => void;
  readonly close: () => void;
}

/** One picture is asked for at a time, so that what follows the hand never waits behind what it has left. */
export function createTileStore(onPicture: () => void, onFailure: (reason: unknown) => void): TileStore {
  const kept = new Map<string, Kept>();
  const failed = new Set<string>();
  let wanted: readonly TileRequest[] = [];
  let running: string | null = null;
  let closed = false;

  const forgetOldest = () => {
    let pixels = 0;
    for (const tile of kept.values()) pixels += tile.pixels;
    for (const [key, tile] of kept) {
      if (pixels <= MOST_PIXELS) break;
      if (wanted.some((request) => request.key === key)) continue;
      pixels -= tile.pixels;
      tile.picture.close();
      kept.delete(key);
    }
  };

  const next = async (): Promise<void> => {
    if (running !== null || closed) return;
    const request = wanted.find(({ key }) => !kept.has(key) && !failed.has(key));
    if (!request) return;
    running = request.key;
    try {
      const { width, height, rgba } = await request.ask();
      const picture = await createImageBitmap(new ImageData(rgba, width, height));
      if (closed) picture.close();
      else {
        kept.set(request.key, { picture, pixels: width * height });
        forgetOldest();
        onPicture();
      }
    } catch (reason) {
      failed.add(request.key);
      onFailure(reason);
    }
    running = null;
    void next();
  };

  return {
    find: (key) => {
      const tile = kept.get(key);
      if (!tile) return undefined;
      // Back to the end of the line: the front is what has not been looked at for longest.
      kept.delete(key);
      kept.set(key, tile);
      return tile.picture;
    },
    want: (requests) => {
      wanted = requests;
      void next();
    },
    close: () => {
      closed = true;
      for (const { picture } of kept.values()) picture.close();
      kept.clear();
    },
  };
}
