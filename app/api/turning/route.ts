import { faultsOf } from "@/lib/fit/request";
import { answerTurning, turningRequestSchema } from "@/lib/turning/request";
import { answering } from "../answering";
import { failed, faulty, json, MAX_TURNING_BYTES, readJson } from "../answers";

/** A vehicle with what it draws and an arc in, the room that the turn takes out. Nothing is stored. */
export const POST = answering(async (request) => {
  const body = await readJson(request, MAX_TURNING_BYTES);
  if (!body.ok) return body.answer;
  const parsed = turningRequestSchema.safeParse(body.value);
  if (!parsed.success) return faulty(faultsOf(parsed.error));
  const answer = answerTurning(parsed.data);
  return answer ? json(answer) : failed(422, "This turn takes more steps than we follow: a drawbar is too short for an arc so long.");
});
