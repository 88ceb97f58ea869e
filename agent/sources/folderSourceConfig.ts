import * as z from "zod";

/** Settings of a folder in which the booth program leaves finished print layouts, or single shots. */
export const folderSourceConfig = z.strictObject({
  kind: z.literal("folder"),
  name: z.string().min(1).max(80).default("layouts"),
  path: z.string().min(1),
  /** layouts: one finished file is one session. shots: files close together are one session. */
  holds: z.enum(["layouts", "shots"]).default("layouts"),
  /** Reading a folder of 1,000 names costs 0.5 ms; a second of waiting is not noticed. */
  scanEveryMs: z.int().min(100).max(60_000).default(1_000),
  /** A file counts when its size and time have stood still this long; use 3000 on a network folder. */
  settleMs: z.int().min(100).max(60_000).default(1_500),
  /** Shots at most this far apart are one session: longer than countdown and pose together. */
  gapMs: z.int().min(1_000).max(600_000).default(20_000),
  extensions: z
    .array(z.string().regex(/^\.?[A-Za-z0-9]{1,8}$/, "must be a file extension such as jpg"))
    .min(1)
    .default(["jpg", "jpeg", "png", "tif", "tiff", "bmp", "pdf"]),
  /** A name with one of these as a whole word is a by-product; so is one that begins with . or ~. */
  ignore: z
    .array(z.string().min(1))
    .default(["thumb", "thumbs", "thumbnail", "preview", "small", "tmp", "part"]),
  /** A finished layout has hundreds of kilobytes; below this it is a stub or a thumbnail. */
  leastBytes: z.int().min(0).default(20_480),
});
export type FolderSourceConfig = z.infer<typeof folderSourceConfig>;
