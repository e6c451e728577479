export declare function buildCli(): Promise<string>;
