import type { Frame, Locator, Page } from 'playwright-core';

/** Presses Tab until the focus is where it is wanted, and gives up when that takes long. */
export async function tabTo(page: Page, target: Locator, { back = false, most = 45 } = {}): Promise<void> {
  const isThere = () => target.evaluate((element) => element === document.activeElement);
  for (let presses = 0; presses < most; presses++) {
    if (await isThere()) return;
    await page.keyboard.press(back ? 'Shift+Tab' : 'Tab');
  }
  if (!(await isThere())) throw new Error(`${most} times Tab do not lead to ${target}`);
}

/** Goes to a control and presses a key there. */
export async function press(page: Page, target: Locator, key = 'Enter'): Promise<void> {
  await tabTo(page, target);
  await page.keyboard.press(key);
}

/** Goes to a field, types over what stands there and confirms. */
export async function fill(page: Page, target: Locator, text: string): Promise<void> {
  await tabTo(page, target);
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.insertText(text);
  await page.keyboard.press('Enter');
}

/** From the contents to the cell with a heading. */
export async function readOn(page: Page, frame: Frame, heading: string): Promise<void> {
  const summary = frame.locator('.contents summary');
  await tabTo(page, summary);
  if ((await frame.locator('.contents details[open]').count()) === 0) await page.keyboard.press('Enter');
  await press(page, frame.locator('.contents').getByRole('button', { name: heading, exact: true }));
  await frame.getByRole('heading', { name: heading, exact: true }).waitFor();
}

/** From a cell back to the contents, by the menu of the cell. */
export async function backToContents(page: Page, cell: Locator): Promise<void> {
  await press(page, cell.getByRole('button', { name: /^Actions for / }));
  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
}

/** From the workbook to a button in the title bar, backwards past the contents and the rail. */
export async function pressInTitleBar(page: Page, name: string): Promise<void> {
  await tabTo(page, page.getByRole('button', { name, exact: true }), { back: true });
  await page.keyboard.press('Enter');
}
