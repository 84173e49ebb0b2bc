"""Photographs taken in safely: any file in, and out comes a clean upright picture, its sizes, and what was wrong."""

from haywisp.measure.photographs.errors import NotTaken
from haywisp.measure.photographs.keeping import take_in
from haywisp.measure.photographs.types import CameraNotes, Frame, KeptPhoto, PhotoSizes, Point

__all__ = ["CameraNotes", "Frame", "KeptPhoto", "NotTaken", "PhotoSizes", "Point", "take_in"]
