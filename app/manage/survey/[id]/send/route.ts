import { StoreError } from "@/lib/store/errors";
import { goOnWithSurvey } from "@/lib/store/survey-drafts";
import { takeSteps } from "@/lib/survey";
import { readStep, stepsSchema } from "@/lib/survey/step-schema";
import { isSameOrigin } from "../../../../api/origin";
import { staffActorOf } from "../../../../staff-session";

export const dynamic = "force-dynamic";

/** Far more than an afternoon's readings take, bytes. */
const MOST = 1_000_000;

/** What a phone is told: steps that could not be taken by their place in the list, and the survey that was gone on with. */
interface Sent {
  readonly draft: string;
  readonly refused: readonly number[];
}

/** Takes what was measured into the survey of a site. Steps that were taken before count once, so that a phone may send again what it is not sure of. */
export async function POST(request: Request, { params }: { readonly params: Promise<{ id: string }> }): Promise<Response> {
  if (!isSameOrigin(request)) return new Response(null, { status: 403 });
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  if (actor.kind !== "manager") return new Response(null, { status: 403 });
  const text = await request.text();
  if (text.length > MOST) return new Response(null, { status: 413 });
  const read = stepsSchema.safeParse(parsed(text));
  if (!read.success) return Response.json({ error: read.error.issues.map(({ path, message }) => ({ path: path.join("."), message })) }, { status: 422 });
  try {
    const { draft, told } = await goOnWithSurvey(actor, (await params).id, (record) => takeSteps(record, read.data.steps.map(readStep)));
    return Response.json({ draft: draft.id, refused: told } satisfies Sent);
  } catch (error) {
    if (error instanceof StoreError && error.kind === "missing") return new Response(null, { status: 404 });
    throw error;
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
