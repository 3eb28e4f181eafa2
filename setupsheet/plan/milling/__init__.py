"""What end mill, boring head and groove tool take off: where the cutter's centre may go, in which passes."""
