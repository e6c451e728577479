/** What was found in a photo. */
export type LabelOutcome =
  /** Texts of plot labels, of whatever trial; none where there is none to be read. */
  | { readonly ok: true; readonly texts: readonly string[] }
  /** This browser cannot show the photo; measuring tells why. */
  | { readonly ok: false };

/** The worker that reads plot labels, as the page sees it. */
export interface LabelApi {
  /** @param bytes the photo file; transferred: the sender no longer owns it */
  read(bytes: ArrayBuffer): Promise<LabelOutcome>;
}
