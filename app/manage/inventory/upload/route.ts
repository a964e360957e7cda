import { bounds, pageLimits, type ExchangeFile } from "@/lib/exchange";
import { createUpload } from "@/lib/store/inventory-uploads";
import { answering } from "@/app/api/answering";
import { isSameOrigin } from "@/app/api/origin";
import { staffActorOf } from "../../../staff-session";
import type { Refused } from "../said";

export const dynamic = "force-dynamic";

/** Borders and names of the parts of a form, beside the files themselves: bytes. */
const AROUND = 100_000;

/** Takes files in and leads to the page that shows what they would do; what cannot be taken is told beside the field. For managers. */
export const POST = answering(async (request: Request) => {
  const actor = await staffActorOf(request);
  if (!actor) return seeOther("/sign-in?next=/manage/inventory");
  if (actor.kind !== "manager") return seeOther("/for-managers");
  if (!isSameOrigin(request)) return new Response(null, { status: 403 });
  if (Number(request.headers.get("content-length")) > pageLimits.bytes + AROUND) return refuse("too-large");
  const form = await readForm(request);
  if (!form) return refuse("broken");
  const sent = form.getAll("files").filter((entry): entry is File => typeof entry !== "string" && (entry.size > 0 || entry.name !== ""));
  if (sent.length === 0) return refuse("none");
  if (sent.length > bounds.files) return refuse("too-many");
  if (sent.reduce((sum, { size }) => sum + size, 0) > pageLimits.bytes) return refuse("too-large");
  const files = await Promise.all(sent.map(async (file): Promise<ExchangeFile> => ({ name: plainName(file.name), bytes: new Uint8Array(await file.arrayBuffer()) })));
  return seeOther(`/manage/inventory/files/${await createUpload(actor, files, form.get("missing") === "remove" ? "remove" : "keep")}`);
});

/** Null where the body is cut off, or is no form. */
async function readForm(request: Request): Promise<FormData | null> {
  try {
    return await request.formData();
  } catch {
    return null;
  }
}

/** As a fault names it: without folders, without what no line should hold, and no longer than a line. */
function plainName(name: string): string {
  const plain = name.replace(/^.*[\\/]/, "").replace(/\p{Cc}/gu, "").slice(-80);
  return plain === "" ? "file" : plain;
}

function refuse(said: Refused): Response {
  return seeOther(`/manage/inventory?said=${said}#in`);
}

/** Relative, so that it holds behind any proxy. */
function seeOther(location: string): Response {
  return new Response(null, { status: 303, headers: { location, "cache-control": "no-store" } });
}
