export function circles(graph: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[];
