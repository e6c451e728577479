export declare function licences(): { list: string; texts: string };
export declare const LICENCE_FILES: { readonly list: string; readonly texts: string };
