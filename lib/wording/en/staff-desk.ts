export const staffDesk = {};

