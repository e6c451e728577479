export declare const BROWSER_FLAGS: string[];
export declare function findBrowser(options?: {
  packagedOnly?: boolean;
}): Promise<{ executablePath: string; env: Record<string, string> }>;
