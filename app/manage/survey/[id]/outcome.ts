/** What becomes of steps that were sent: taken, the one that was sent refused, sent again fewer at a time, or kept until they are sent again. */
export type Outcome = "taken" | "refused" | "fewer" | "waiting" | "signed-out" | "gone";

/** By the answer's status, 0 where none came, and how many steps it is about. Only an answer to one step alone says that it is that one; whatever is not known keeps them. */
export function outcomeOf(status: number, steps: number): Outcome {
  switch (status) {
    case 200: return "taken";
    case 401: case 403: return "signed-out";
    case 404: return "gone";
    case 413: return steps > 1 ? "fewer" : "waiting";
    case 422: return steps > 1 ? "fewer" : "refused";
    default: return "waiting";
  }
}
