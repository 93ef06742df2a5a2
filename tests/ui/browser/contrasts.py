"""How readable the words on the page are, as the browser really draws them."""

from typing import Any

FADED_IN_MS = 1500

LEAST_CONTRAST = 4.5
"""WCAG 2.2, success criterion 1.4.3, level AA, for text of usual size; from memory."""

_PALE_WORDS = """(least) => {
  const parts = (colour) => {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = 1;
    const pen = canvas.getContext('2d');
    pen.fillStyle = colour;
    pen.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = pen.getImageData(0, 0, 1, 1).data;
    return [r, g, b, a / 255];
  };
  const over = (top, below) => [0, 1, 2].map((i) => top[i] * top[3] + below[i] * (1 - top[3])).concat(1);
  const chain = (one) => { const all = []; for (; one; one = one.parentElement) all.push(one); return all; };
  const paper = (one) => chain(one).reverse().reduce(
    (below, each) => over(parts(getComputedStyle(each).backgroundColor), below), [255, 255, 255, 1]);
  const light = (colour) => colour.slice(0, 3).map((part) => part / 255)
    .map((part) => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)
    .reduce((sum, part, i) => sum + part * [0.2126, 0.7152, 0.0722][i], 0);
  const contrast = (one, other) => {
    const [dark, bright] = [light(one), light(other)].sort((a, b) => a - b);
    return (bright + 0.05) / (dark + 0.05);
  };
  const found = [];
  // a slider's figure stands above its knob, not on it
  const besides = 'svg, style, [data-testid=stIconMaterial], [data-testid=stSliderThumbValue]';
  const words = document.createTreeWalker(document.querySelector('[data-testid=stMain]'), NodeFilter.SHOW_TEXT);
  while (words.nextNode()) {
    const one = words.currentNode.parentElement, said = words.currentNode.textContent.trim();
    const size = one.getBoundingClientRect();
    const isDisabled = chain(one).some((each) => each.disabled || each.getAttribute('aria-disabled') === 'true');
    if (!said || !size.width || !size.height || one.closest(besides) || isDisabled)
      continue;
    const ground = paper(one), ink = parts(getComputedStyle(one).color);
    ink[3] *= chain(one).reduce((left, each) => left * Number(getComputedStyle(each).opacity), 1);
    if (!ink[3]) continue;  // shown only while something is pointed at
    const ratio = contrast(over(ink, ground), ground);
    if (ratio < least) found.push(`${ratio.toFixed(2)} ${one.tagName} ${said.slice(0, 60)}`);
  }
  return found;
}"""


def pale_words(tab: Any) -> list[str]:
    """Words that stand out too little from what lies behind them, with their contrast; disabled ones are left out.

    What is just fading in is looked at again when it has: only what stays pale cannot be read.
    """
    found: list[str] = tab.evaluate(_PALE_WORDS, LEAST_CONTRAST)
    if found:
        tab.wait_for_timeout(FADED_IN_MS)
        found = tab.evaluate(_PALE_WORDS, LEAST_CONTRAST)
    return found
