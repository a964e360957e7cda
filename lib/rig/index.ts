export * from "./schema";
export * from "./solids";
export * from "./typical";
export * from "./steering";
