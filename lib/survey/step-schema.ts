import { z } from "zod";
import { measurementSchema, surveyMethods } from "@/lib/park";
import { newKinds, type Step } from "./walk";

const id = z.string().min(1).max(100), day = z.iso.date();
const shared = {
  id, how: z.enum(surveyMethods), on: day, by: z.string().min(1).max(80).optional(), again: day.optional(),
  value: z.number().min(-500_000).max(500_000).optional(), readings: z.unknown().optional(),
};

/** What was read has to be what a record can keep. */
function isKept(reading: { readonly id: string; readonly of: string; readonly how: string; readonly on: string; readonly readings?: unknown }): boolean {
  const { id: own, of, how, on, readings } = reading;
  return measurementSchema.safeParse({ id: own, of, how, on, error: 0, ...(readings === undefined ? {} : { readings }) }).success;
}

const unread = "must be a reading that a record can keep";
const reading = z.object({ ...shared, of: z.string().min(1).max(200) }).refine(isKept, unread);
const place = z.object(shared).refine((given) => isKept({ ...given, of: "obstacles.new.at" }), unread);

const step = z.discriminatedUnion("do", [
  z.object({ do: z.literal("read"), reading }),
  z.object({ do: z.literal("add"), kind: z.enum(newKinds), name: z.string().min(1).max(80), place }),
  z.object({ do: z.literal("gone"), id, list: z.enum(["obstacles", "hookups"]), step: z.string().min(1).max(80).optional() }),
]);

/** A list of steps of a survey as a phone sends it. */
export const stepsSchema = z.object({ steps: z.array(z.unknown()).max(500) });

/** One of the list; null where it is no step, which refuses that one alone. */
export function readStep(sent: unknown): Step | null {
  const read = step.safeParse(sent);
  return read.success ? (read.data as Step) : null;
}
