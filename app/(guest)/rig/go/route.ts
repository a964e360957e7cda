import { nextAddress } from "../../../components/rig-form/next-address";
import { paramsOf } from "../../../components/rig-form/params";
import { askedBy } from "../../context";

/** Where a step of the form is sent: what was pressed is done, and the short address of what comes next answered. */
export async function GET(request: Request): Promise<Response> {
  const params = paramsOf(new URL(request.url).searchParams);
  const asked = await askedBy(params);
  const address = asked?.form ? nextAddress(params, asked.form) : "/";
  return new Response(null, { status: 303, headers: { Location: address, "Cache-Control": "no-store" } });
}
