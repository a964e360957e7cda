import pino from "pino";
import { environment } from "./environment";

/**
 * The application's log: one JSON object a line, on standard error, standard output being for people. Records of
 * guests and rigs do not belong in it.
 */
export const log = pino(
  { level: environment().LOG_LEVEL, base: null, timestamp: pino.stdTimeFunctions.isoTime, redact: ["*.password", "*.authorization", "*.cookie"] },
  pino.destination(2),
);
