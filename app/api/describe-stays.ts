import type { z } from "zod";
import { stayCallSchema, stayPatchSchema } from "@/lib/stays";
import type { Json, Operation } from "./operation";
import { stayRecordSchema } from "./stays/record";

const ref = (name: string) => ({ $ref: `#/components/schemas/${name}` });
const answers = (schema: Json) => ({ "application/json": { schema } });
const refusal = (description: string) => ({ description, content: answers(ref("Refusal")) });
const date = { type: "string", format: "date" };
const text = { type: "string" };

/** A van without hookups, asked for three nights. */
const exampleStay: z.input<typeof stayCallSchema> = {
  park: "quillback-meadow", arrive: "2027-06-18", depart: "2027-06-21", site: "b05",
  guest: { name: "Wren Alder", email: "wren@example.com" },
  rig: {
    id: "short-van", kind: "van", body: { length: 5900, width: 2050, height: 2700, floor: 300 },
    supports: [{ kind: "tyre", at: [1000, 800] }, { kind: "tyre", at: [1000, -800] }, { kind: "tyre", at: [4600, 800] }, { kind: "tyre", at: [4600, -800] }],
    parts: [], inlets: [], wants: [],
  },
};
const examplePatch: z.input<typeof stayPatchSchema> = { version: 1, note: "We come after dark." };

/** The calls that have to do with nights and stays. */
export function stayPaths() {
  return {
    "/api/parks/{slug}/availability": { get: availabilityOperation() },
    "/api/stays": { post: openOperation() },
    "/api/stays/{id}": { get: readOperation(), patch: changeOperation() },
  };
}

/** What a stay is asked for and answered by; `schemaOf` makes a schema's description. */
export function staySchemas(schemaOf: (schema: z.ZodType, io?: "input" | "output") => Json): Record<string, Json> {
  const withRig = (schema: Json): Json => ({ ...schema, properties: { ...(schema.properties as Json), rig: ref("Rig") } });
  return {
    StayCall: withRig(schemaOf(stayCallSchema)),
    StayPatch: withRig(schemaOf(stayPatchSchema)),
    Stay: withRig(schemaOf(stayRecordSchema, "output")),
    NightsGone: {
      type: "object",
      description: "Somebody else has one of the nights.",
      required: ["error", "site", "arrive", "depart", "free", "nearest"],
      properties: {
        error: text, faults: { type: "array", items: {} }, site: text, arrive: date, depart: date,
        free: { type: "array", items: text, description: "The sites that are free for these nights and take this rig, best first." },
        nearest: { description: "As many nights on the same site, as near as they can be had.", anyOf: [{ type: "null" }, { type: "object", required: ["arrive", "depart"], properties: { arrive: date, depart: date } }] },
      },
    },
  };
}

function availabilityOperation(): Operation {
  return {
    summary: "Which sites are free",
    description: "Every site of a park, and whether nobody has it on any night from `arrive` up to `depart`, that day not included: who leaves that morning and who comes that afternoon do not meet. Dates are the park’s own. Nothing is said of who has the others.",
    parameters: [
      { name: "slug", in: "path", required: true, description: "The park’s short name.", schema: text },
      { name: "arrive", in: "query", required: true, description: "The first night, today or later.", schema: date },
      { name: "depart", in: "query", required: true, description: "The day of leaving, from 1 to 400 nights later.", schema: date },
      { name: "site", in: "query", required: false, description: "Only this site; may be given more than once.", schema: { type: "array", items: text } },
    ],
    responses: {
      200: {
        description: "The sites, in the park’s own order.",
        content: answers({
          type: "object", required: ["park", "arrive", "depart", "nights", "free", "sites"],
          properties: {
            park: text, arrive: date, depart: date, nights: { type: "integer" }, free: { type: "array", items: text, description: "The ids of those that are free." },
            sites: { type: "array", items: { type: "object", required: ["id", "label", "loop", "free"], properties: { id: text, label: text, loop: { type: ["string", "null"] }, free: { type: "boolean" } } } },
          },
        }),
      },
      404: refusal("There is no such park."),
      422: refusal("The dates or sites are not as they should be: every fault at once."),
      503: refusal("The database cannot be reached just now. Try again in a moment."),
    },
  };
}

function openOperation(): Operation {
  return {
    summary: "Open a stay",
    description: "Holds a site, asks for a stay or books one, as the park lets guests. Whether the rig fits is judged first. Sent again with the same Idempotency-Key, the same call makes no second stay and is answered with the first. The answer carries the private link, told this once: who has it can read and change the stay. Money is only quoted and noted; no card data is taken.",
    parameters: [{ name: "Idempotency-Key", in: "header", required: false, description: "A text of your own, new for every stay, of at most 200 letters.", schema: { type: "string", maxLength: 200 } }],
    requestBody: { required: true, content: { "application/json": { schema: ref("StayCall"), example: exampleStay } } },
    responses: {
      200: { description: "The stay that the first call with this key made, with a link of its own.", content: answers(opened) },
      201: { description: "The stay, with the price that was agreed to.", content: answers(opened) },
      400: refusal("The body cannot be read as JSON."),
      404: refusal("There is no such park."),
      409: { description: "Somebody else has one of the nights: what is still free.", content: answers(ref("NightsGone")) },
      413: refusal("The body is too large."),
      422: refusal("Readable, but something in it is not as it should be, or the rig does not fit, or the park does not allow it: every fault at once."),
      503: refusal("Too much is asked just now, or the database cannot be reached. Try again in a moment, with the same key."),
    },
  };
}

const opened: Json = {
  type: "object", required: ["stay", "link"],
  properties: { stay: ref("Stay"), link: { type: ["object", "null"], required: ["token", "url"], properties: { token: text, url: { type: "string", format: "uri" } } } },
};
const stayAnswer = answers({ type: "object", required: ["stay"], properties: { stay: ref("Stay") } });
const idParameter: Json = { name: "id", in: "path", required: true, description: "The stay’s id.", schema: text };
const whoAsks = "A guest shows the token of their private link as `Authorization: Bearer …`; staff are known by their session. For anybody else there is no such stay.";

function readOperation(): Operation {
  return {
    summary: "Read a stay",
    description: whoAsks,
    parameters: [idParameter],
    responses: { 200: { description: "The stay.", content: stayAnswer }, 404: refusal("There is no such stay, or it is not yours to see."), 503: refusal("The database cannot be reached just now. Try again in a moment.") },
  };
}

function changeOperation(): Operation {
  return {
    summary: "Change a stay",
    description: `${whoAsks} One kind of change at a time: what is brought and who comes (\`rig\`, \`guest\`, \`note\`), the nights (\`arrive\`, \`depart\`), the \`site\`, or the \`state\`. A rig or site is accepted only where the rig fits; staff may take a poor fit and say why (\`override\`). What was agreed to pay is not changed by it.`,
    parameters: [idParameter],
    requestBody: { required: true, content: { "application/json": { schema: ref("StayPatch"), example: examplePatch } } },
    responses: {
      200: { description: "The stay as it now is.", content: stayAnswer },
      400: refusal("The body cannot be read as JSON."),
      403: refusal("A change with a session’s cookie came from another site."),
      404: refusal("There is no such stay, or it is not yours to see."),
      409: { description: "Somebody has one of the nights, or the stay was changed since it was read.", content: answers({ anyOf: [ref("NightsGone"), ref("Refusal")] }) },
      413: refusal("The body is too large."),
      422: refusal("Something in it is not as it should be, or is not allowed: every fault at once."),
      503: refusal("The database cannot be reached just now. Try again in a moment."),
    },
  };
}
