/** Greatest side of a photo inside a saved figure, in pixels: sharp at 300 dots an inch over half a page. */
const MOST_PX = 1200;

/**
 * Puts the pictures of a drawing into it as JPEG, since a saved file reaches nothing outside of itself.
 *
 * @param svg is changed
 * @throws Error when a picture cannot be read
 */
export async function inlinePictures(svg: SVGSVGElement): Promise<void> {
  for (const element of svg.querySelectorAll('image')) {
    const address = element.getAttribute('href');
    if (address === null || address.startsWith('data:')) continue;
    const picture = new Image();
    picture.src = address;
    await picture.decode();
    const shrink = Math.min(1, MOST_PX / Math.max(picture.naturalWidth, picture.naturalHeight));
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, Math.round(picture.naturalWidth * shrink));
    canvas.height = Math.max(1, Math.round(picture.naturalHeight * shrink));
    const context = canvas.getContext('2d');
    if (!context) throw new Error(`no canvas of ${canvas.width} x ${canvas.height} pixels`);
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
    element.setAttribute('href', canvas.toDataURL('image/jpeg', 0.9));
  }
}
