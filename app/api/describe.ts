import { z } from "zod";
import { MAX_BODY_BYTES, MAX_TURNING_BYTES } from "./answers";
import { fitRequestSchema, MAX_SITES_PER_CALL } from "@/lib/fit/request";
import { policySchema } from "@/lib/fit";
import { siteSchema } from "@/lib/park";
import { rigSchema } from "@/lib/rig";
import { turningAnswerSchema, turningRequestSchema } from "@/lib/turning/request";
import { stayPaths, staySchemas } from "./describe-stays";
import type { Json, Operation } from "./operation";
import { resultSchemas } from "./result-schema";

const ref = (name: string) => ({ $ref: `#/components/schemas/${name}` });
const answers = (schema: Json) => ({ "application/json": { schema } });
const refusal = (description: string) => ({ description, content: answers(ref("Refusal")) });

/** The OpenAPI 3.1 description, made from the schemas that parse the requests: it cannot say other than they do. */
export function openApi() {
  return {
    openapi: "3.1.0",
    info: { title: "Padwright", version: "1", description: "Decides whether a rig fits a measured site, where it can stand, and what to bring. Lengths are millimeters, slopes per cent, angles degrees. Advice from measurements: the person on the ground decides." },
    paths: {
      "/api/fit": { post: fitOperation() },
      "/api/parks/{slug}/sites": { get: sitesOperation() },
      ...stayPaths(),
      "/api/turning": { post: turningOperation() },
      "/api/openapi.json": { get: { summary: "This description", description: "The interface as an OpenAPI 3.1 document.", responses: { 200: { description: "The document." } } } satisfies Operation },
    },
    components: { schemas: schemas() },
  };
}

function fitOperation(): Operation {
  return {
    summary: "Rank sites for a rig",
    description: `Answers every site asked about, best first, each with its verdict, where the rig stands, reasons and what to bring. Give the sites themselves (at most ${MAX_SITES_PER_CALL}, in a body of at most ${MAX_BODY_BYTES / 1_000_000} MB) or the short name of a stored park. Nothing is stored.`,
    requestBody: { required: true, content: answers(ref("FitRequest")) },
    responses: {
      200: { description: "Every site, best first.", content: answers(ref("Answer")) },
      400: refusal("The body cannot be read as JSON."),
      404: refusal("There is no such park."),
      413: refusal(`The body is larger than ${MAX_BODY_BYTES / 1_000_000} MB.`),
      422: refusal("Readable, but something in it is not as it should be: every fault at once."),
      500: refusal("Something went wrong on our side."),
      503: refusal("Too many others are waiting, or the database cannot be reached. Try again in a moment."),
      504: refusal("It took too long. Ask about fewer sites."),
    },
  };
}

function sitesOperation(): Operation {
  return {
    summary: "A park’s sites",
    description: "The stored inventory of a park, as measured.",
    parameters: [{ name: "slug", in: "path", required: true, description: "The park’s short name.", schema: { type: "string" } }],
    responses: {
      200: { description: "The sites.", content: answers({ type: "object", required: ["sites"], properties: { sites: { type: "array", items: ref("Site") } } }) },
      404: refusal("There is no such park."),
      503: refusal("The database cannot be reached just now. Try again in a moment."),
    },
  };
}

function turningOperation(): Operation {
  return {
    summary: "The room a turn takes",
    description: "How far in and how far out a vehicle and what it draws reach in one turn at walking pace, no tire slipping. The middle of the front axle drives straight, then an arc, then straight. Nothing is stored.",
    requestBody: { required: true, content: answers(ref("TurningRequest")) },
    responses: {
      200: { description: "The turn.", content: answers(ref("TurningAnswer")) },
      400: refusal("The body cannot be read as JSON."),
      413: refusal(`The body is larger than ${MAX_TURNING_BYTES / 1000} kB.`),
      422: refusal("Readable, but something in it is not as it should be: every fault at once. Or the turn takes more steps than are followed, as a drawbar of a hand’s breadth on an arc of a mile would."),
      500: refusal("Something went wrong on our side."),
    },
  };
}

function schemas(): Record<string, Json> {
  const request = schemaOf(fitRequestSchema);
  const properties = { ...(request.properties as Json), rig: ref("Rig"), policy: ref("Policy") } as Json;
  properties.sites = { ...(properties.sites as Json), items: ref("Site") };
  return {
    FitRequest: { ...request, properties },
    Site: schemaOf(siteSchema),
    Rig: schemaOf(rigSchema),
    Policy: schemaOf(policySchema),
    ...staySchemas(schemaOf),
    TurningRequest: schemaOf(turningRequestSchema),
    TurningAnswer: schemaOf(turningAnswerSchema, "output"),
    ...Object.fromEntries(Object.entries(resultSchemas).map(([name, schema]) => [name, schemaOf(schema, "output")])),
  };
}

function schemaOf(schema: z.ZodType, io: "input" | "output" = "input"): Json {
  const { $schema: _dialect, ...rest } = z.toJSONSchema(schema, { io, target: "draft-2020-12", unrepresentable: "any", reused: "inline" });
  return rest;
}
