// Loaded before the program in walkthroughs that need another day: its clock is moved by SHIFT_CLOCK_MS.
const shiftMs = Number(process.env['SHIFT_CLOCK_MS'] ?? '0');
const now = Date.now.bind(Date);
Date.now = () => now() + shiftMs;
