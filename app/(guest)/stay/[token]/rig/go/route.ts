import { nextAddress } from "../../../../../components/rig-form/next-address";
import { paramsOf } from "../../../../../components/rig-form/params";
import { readChange } from "../read-change";

/** Where a step of the form is sent, as in the guest's first form: the short address of what comes next is answered. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ token: string }> }): Promise<Response> {
  const [{ token }, asked] = [await params, paramsOf(new URL(request.url).searchParams)];
  const change = await readChange(token, asked);
  const address = change ? nextAddress(asked, change.form) : `/stay/${encodeURIComponent(token)}`;
  return new Response(null, { status: 303, headers: { Location: address, "Cache-Control": "no-store" } });
}
