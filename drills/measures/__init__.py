"""What the program computes from a pedal trace: one file a section of the measures.

Pedal values are percent of the calibrated range, times are seconds, windows are half-open.
"""
