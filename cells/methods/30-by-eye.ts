import { prose, textField } from '#hourline';

const help = 'One figure for each rater, apart by spaces.';
export const leaves = textField({
  label: 'Lactate leaves its baseline at',
  value: '',
  help,
});
export const steep = textField({
  label: 'Lactate begins to rise steeply at',
  value: '',
  help,
});

export default [
  prose`
    ## First, look
    Before any line is drawn: where would you put the two
    thresholds? Let somebody else look too, without telling
    each other, and enter what each of you reads off the bare
    points beneath. It is the oldest method, and its error is
    the difference between you.`,
  leaves,
  steep,
];
