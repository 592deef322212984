package main
func main(){}
