import { openApi } from "../describe";

export const dynamic = "force-static";

export function GET(): Response {
  return Response.json(openApi());
}
