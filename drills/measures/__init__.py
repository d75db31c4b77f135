"""The measures that the program computes from a pedal trace, a file for each group of them.

Pedal values are percent of the calibrated range, times are seconds, windows are half-open.
"""
