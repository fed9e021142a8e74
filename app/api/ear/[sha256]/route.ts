import { EAR_WEIGHTS_MEDIA_TYPE } from "@/lib/contracts/ear";
import { route } from "@/lib/server/http/route";

/** The name is the checksum: what stands under it never changes. */
const CACHING = "private, max-age=31536000, immutable";

export const GET = route(async ({ house, params }) => {
  const bytes = await house.earFiles.read(params.sha256!);
  return new Response(new Uint8Array(bytes), {
    headers: {
      "cache-control": CACHING,
      "content-type": EAR_WEIGHTS_MEDIA_TYPE,
      "content-length": String(bytes.length),
    },
  });
});
