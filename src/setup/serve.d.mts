export function serve(port?: number): Promise<{ readonly address: string; readonly stop: () => Promise<void> }>;
