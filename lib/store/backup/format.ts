import { z } from "zod";

/** The first line of every backup. Its number counts changes of the format. */
export const firstLine = "Padwright backup 1\n";
/** The first line of one in a format that was made later. */
export const otherVersion = /^Padwright backup \d+\n/;
/** The last line: `sha256 `, 64 hex digits of everything before it, a line end. */
export const lastLineLength = 72;
export const lastLine = (digest: string): Buffer => Buffer.from(`sha256 ${digest}\n`);
export const lastLinePattern = /^sha256 ([0-9a-f]{64})\n$/;

/** The second line may be so long, in bytes: hundreds of migrations and tables. A limit, so that a damaged file is not read whole in search of its end. */
export const headerLimit = 1 << 20;
/** The most that one frame carries, in bytes. A limit, so that a damaged length asks for no gigabytes. */
export const frameLimit = 1 << 20;

/** What a frame is. Rows are as COPY writes them, cut anywhere. */
export const kinds = { table: 0x54, rows: 0x44, tableEnd: 0x45, sequences: 0x53, end: 0x5a } as const;
export type Kind = (typeof kinds)[keyof typeof kinds];

const digest = z.string().regex(/^[0-9a-f]{64}$/);
const count = z.number().int().nonnegative();

/** The second line: what can be known without unpacking anything. */
export const headerSchema = z.object({
  madeAt: z.iso.datetime(),
  /** The server's version, such as 18.4. */
  postgres: z.string(),
  /** What the database's history was, oldest first. */
  migrations: z.array(z.object({ name: z.string(), sha256: digest })),
  /** In their order in the file: what is referred to comes before what refers to it. */
  tables: z.array(z.string()),
});
export type Header = z.infer<typeof headerSchema>;

export const tableSchema = z.object({ name: z.string(), columns: z.array(z.string()).min(1) });
export type TableStart = z.infer<typeof tableSchema>;

/** Rows, and bytes and sha256 of their text as COPY wrote it. */
export const tallySchema = z.object({ rows: count, bytes: count, sha256: digest });
export type Tally = z.infer<typeof tallySchema>;

export const sequencesSchema = z.array(z.object({ name: z.string(), lastValue: z.string().regex(/^-?\d+$/), isCalled: z.boolean() }));
export type Sequences = z.infer<typeof sequencesSchema>;

export const endSchema = z.object({ tables: count, rows: count });

/** A frame: its kind, the length of what it carries as four bytes, the greatest first, and that. */
export function frame(kind: Kind, payload: Buffer): Buffer {
  const head = Buffer.alloc(5);
  head.writeUInt8(kind, 0);
  head.writeUInt32BE(payload.length, 1);
  return Buffer.concat([head, payload]);
}

export function jsonFrame(kind: Kind, value: unknown): Buffer {
  return frame(kind, Buffer.from(JSON.stringify(value)));
}
